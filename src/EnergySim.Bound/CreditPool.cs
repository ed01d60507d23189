namespace EnergySim.Bound;

/// <summary>
/// Credit kept from bill to bill, dollars or kWh, as the bills' bank keeps it: each lot pays while it lasts, what is owed is paid first. That
/// credit pays as soon as it can, and nothing while something is owed, is a choice each.
/// </summary>
/// <param name="programme">Takes the columns and rows.</param>
/// <param name="waitingPays">True where credit could be worth more later, so that it must be said to pay at once.</param>
internal sealed class CreditPool(Programme programme, bool waitingPays)
{
    private const string SoonerName = "credit pays at once what it can";

    private List<(int Bill, Expression Left)> _lots = [];

    /// <summary>Credit that is left.</summary>
    public Expression Left()
    {
        var left = new Expression();
        foreach ((_, Expression lot) in _lots) left.Plus(lot);
        return left;
    }

    /// <summary>What is owed, where more was charged than earned.</summary>
    public Expression Owed { get; private set; } = new();

    /// <summary>Lets lapse what was earned more than so many bills ago; credit without an end is one lot.</summary>
    public void Expire(int bill, int? lastsBills)
    {
        if (lastsBills is int lasts) _lots.RemoveAll(lot => lot.Bill + lasts < bill);
        else if (_lots.Count > 1) _lots = [(_lots[0].Bill, Left())];
    }

    /// <summary>Takes up what a bill earns, or charges.</summary>
    /// <param name="bill">The bill.</param>
    /// <param name="earned">It.</param>
    public void Earn(int bill, Expression earned)
    {
        double most = programme.HighOf(earned.Credits());
        if (most <= 0)
        {
            _lots.Add((bill, earned.Terms.Count > 1 ? new Expression().Plus(programme.Named(earned, 0)) : earned));
            return;
        }
        // What is charged is set against what was earned before, and only the rest is owed: no more than the charges themselves.
        int owed = programme.Column(0, most), lot = programme.Column(0, Math.Max(0, programme.HighOf(earned)) + most), repaid = programme.Column();
        programme.Row(new Expression().Plus(earned).Plus(owed).Minus(lot), 0, 0);
        programme.AtLeastZero(earned.Credits().Minus(owed));
        programme.Either("a bill's export is earned or owed", new Expression().Minus(owed), new Expression().Minus(lot));
        _lots.Add((bill, new Expression().Plus(lot)));
        Expression before = new Expression().Plus(Owed).Plus(owed);
        programme.AtLeastZero(new Expression().Plus(before).Minus(repaid));
        programme.Row(Take().Minus(repaid), 0, 0);
        Owed = new Expression().Plus(programme.Named(before.Minus(repaid), 0));
        programme.Either("what is owed is paid before credit pays", new Expression().Minus(Owed), new Expression().Minus(Left()));
    }

    /// <summary>Uses credit.</summary>
    /// <param name="used">How much.</param>
    /// <param name="payable">What it may pay at most.</param>
    public void Use(Expression used, Expression payable)
    {
        programme.Row(Take().Minus(used), 0, 0);
        if (waitingPays && _lots.Count > 0) programme.Either(SoonerName, new Expression().Minus(Left()), new Expression().Plus(used).Minus(payable));
    }

    /// <summary>Pays out what is owed and forgets it.</summary>
    public Expression Settle()
    {
        Expression owed = Owed;
        Owed = new Expression();
        return owed;
    }

    /// <summary>Forgets what is left.</summary>
    public void Clear() => _lots.Clear();

    // A column for what is taken of each lot, and one for what it keeps.
    private Expression Take()
    {
        var taken = new Expression();
        for (int l = 0; l < _lots.Count; l++)
        {
            int take = programme.Column();
            taken.Plus(take);
            _lots[l] = (_lots[l].Bill, new Expression().Plus(programme.Named(new Expression().Plus(_lots[l].Left).Minus(take), 0)));
        }
        return taken;
    }
}
