using EnergySim.Economics;
using EnergySim.Tariffs;
using EnergySim.Time;

namespace EnergySim.Studies.Lifetime;

/// <summary>Looks for the price, the growth and the window at which the larger of two offers begins to pay.</summary>
internal sealed class BreakEvenStudy(Home home, MoneyTerms terms, LifetimeFlows flows, LifetimeMoney money, BandStudy bands)
{
    private const double LeastGrowth = -0.05, MostGrowth = 0.25;
    private const int MostWindowHours = 6;

    private readonly PlanByYear _plans = LifetimeRuns.PlanOf(home, terms);

    /// <summary>Each offer that has more units than the one before it, both with a price.</summary>
    public IReadOnlyList<BreakEven> All() =>
        [.. Enumerable.Range(1, Math.Max(0, home.Offers.Count - 1))
            .Where(i => home.Offers[i].Units > home.Offers[i - 1].Units && home.Offers[i].Price is not null && home.Offers[i - 1].Price is not null)
            .Select(Of)];

    private BreakEven Of(int second)
    {
        double added = AddedValue(money, second);
        bool hasWindow = PeaksOf(home.Tariff).Count > 0;
        return new BreakEven
        {
            First = home.Offers[second - 1].Name,
            Second = home.Offers[second].Name,
            AddedPrice = home.Offers[second].Price!.Value - home.Offers[second - 1].Price!.Value,
            AddedNetPresentValue = added,
            PaysUpToAddedPrice = PriceThatPays(second, added),
            PaysFromGrowth = GrowthThatPays(second),
            PaysFromLongerWindowHours = !hasWindow ? null : added >= 0 ? 0 : WindowThatPays(second),
            HasWindow = hasWindow,
            Bands = bands.Of(second, second - 1),
        };
    }

    private double AddedValue(LifetimeMoney priced, int second) =>
        priced.Offers[second].Cash.PresentValue(terms.Discount) - priced.Offers[second - 1].Cash.PresentValue(terms.Discount);

    // Incentives that are a share of the price make each unit of price cost less than itself; the value is a straight line in the price.
    private decimal PriceThatPays(int second, double added)
    {
        decimal price = home.Offers[second].Price!.Value;
        OfferFlows dearer = flows.Offers[second] with { Offer = flows.Offers[second].Offer with { Price = price + 1000 } };
        double more = AddedValue(LifetimeMoney.Of(flows with { Offers = [.. flows.Offers.Select((o, i) => i == second ? dearer : o)] }, terms, _plans), second);
        decimal addedPrice = price - home.Offers[second - 1].Price!.Value;
        return more < added ? addedPrice + OfferMoney.Cents(added / ((added - more) / 1000)) : decimal.MaxValue;
    }

    private double? GrowthThatPays(int second)
    {
        double ValueAt(double growth) => AddedValue(LifetimeMoney.Of(flows, terms with { Growth = terms.Growth.WithEnergy(growth) }, _plans), second);
        double low = LeastGrowth, high = MostGrowth;
        if (ValueAt(low) >= 0 || ValueAt(high) < 0) return null;
        while (high - low > 1e-5)
        {
            double middle = (low + high) / 2;
            if (ValueAt(middle) < 0) low = middle;
            else high = middle;
        }
        return (low + high) / 2;
    }

    private int? WindowThatPays(int second)
    {
        Home two = home with { Offers = [home.Offers[second - 1], home.Offers[second]] };
        // Two at a time, one a core.
        for (int hours = 1; hours <= MostWindowHours; hours += 2)
        {
            bool[] pays = new bool[Math.Min(2, MostWindowHours - hours + 1)];
            Parallel.For(0, pays.Length, i => pays[i] = PaysWith(two, 60 * (hours + i)));
            if (Array.IndexOf(pays, true) is >= 0 and int first) return hours + first;
        }
        return null;
    }

    private bool PaysWith(Home two, int minutes)
    {
        Home longer = two with { Tariff = Longer(home.Tariff, minutes), Offers = [.. two.Offers.Select(o => Longer(o, minutes))] };
        return AddedValue(LifetimeMoney.Of(LifetimeRuns.Of(longer, terms), terms, LifetimeRuns.PlanOf(longer, terms)), 1) >= 0;
    }

    private static Offer Longer(Offer offer, int minutes) => offer with
    {
        Strategy = offer.Strategy with { PeakWindows = [.. offer.Strategy.PeakWindows.Select(w => Longer(w, minutes))] },
    };

    private static Tariff Longer(Tariff tariff, int minutes)
    {
        IReadOnlyList<string> peaks = PeaksOf(tariff);
        // Of several rules that hold for a minute the first listed counts, so the lengthened ones go in front.
        return tariff with
        {
            Versions = [.. tariff.Versions.Select(v => v with
            {
                Periods = [.. v.Periods.Where(p => peaks.Contains(p.Period)).Select(p => p with { Window = Longer(p.Window, minutes) }), .. v.Periods],
            })],
        };
    }

    private static ClockWindow Longer(ClockWindow window, int minutes)
    {
        int length = (window.ToMinute - window.FromMinute + 1440) % 1440;
        if (length == 0 || length + minutes >= 1440) return ClockWindow.WholeDay;
        return window with { FromMinute = (window.FromMinute - minutes + 1440) % 1440 };
    }

    // The dearest period of each version and season, where it holds in a part of the day only.
    private static List<string> PeaksOf(Tariff tariff)
    {
        var peaks = new HashSet<string>(StringComparer.Ordinal);
        foreach (TariffVersion version in tariff.Versions)
        {
            var rules = new DayRules(version, version.Effective.Year, version.Effective.Year);
            foreach (string season in rules.Seasons.Select(s => s.Name))
            {
                string[] periods = [.. version.Periods.Where(p => p.Season is null || p.Season == season).Select(p => p.Period).Distinct()];
                (string Period, decimal Price)[] prices = [.. periods.Select(p => (p, rules.PriceOf(season, p)?.TotalPerKwh ?? 0))];
                if (prices.Length < 2 || prices.Max(p => p.Price) == prices.Min(p => p.Price)) continue;
                string dearest = prices.MaxBy(p => p.Price).Period;
                if (version.Periods.Where(p => p.Period == dearest).All(p => p.Window != ClockWindow.WholeDay)) peaks.Add(dearest);
            }
        }
        return [.. peaks];
    }
}
