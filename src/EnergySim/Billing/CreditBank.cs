namespace EnergySim.Billing;

/// <summary>Credit of one bucket, dollars or kWh, kept from bill to bill; the oldest is used first, and what is too old lapses.</summary>
internal sealed class CreditBank
{
    private readonly List<(int Bill, decimal Amount)> _lots = [];
    private decimal _debt;

    /// <summary>What is left; below zero where more was owed than earned.</summary>
    public decimal Left
    {
        get
        {
            decimal left = -_debt;
            foreach ((int _, decimal amount) in _lots) left += amount;
            return left;
        }
    }

    /// <summary>Adds what a bill earned; a negative amount is taken from what is there, or owed.</summary>
    public void Add(int bill, decimal amount)
    {
        _debt -= amount;
        if (_debt >= 0)
        {
            _debt = Consume(_debt);
            return;
        }
        _lots.Add((bill, -_debt));
        _debt = 0;
    }

    /// <summary>Uses up to so much; gives what was used.</summary>
    public decimal Use(decimal most)
    {
        decimal wanted = Math.Max(0, Math.Min(most, Left));
        Consume(wanted);
        return wanted;
    }

    /// <summary>Lets lapse what was earned more than so many bills ago.</summary>
    public void Expire(int bill, int? lastsBills)
    {
        if (lastsBills is int lasts) _lots.RemoveAll(lot => lot.Bill + lasts < bill);
    }

    public void Clear()
    {
        _lots.Clear();
        _debt = 0;
    }

    // Gives what could not be taken.
    private decimal Consume(decimal amount)
    {
        while (amount > 0 && _lots.Count > 0)
        {
            decimal taken = Math.Min(amount, _lots[0].Amount);
            amount -= taken;
            if (taken == _lots[0].Amount) _lots.RemoveAt(0);
            else _lots[0] = (_lots[0].Bill, _lots[0].Amount - taken);
        }
        return amount;
    }
}
