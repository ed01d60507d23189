using System.Globalization;
using EnergySim.Economics;
using EnergySim.Profiles;
using EnergySim.Studies.Finance;
using EnergySim.Studies.Outages;

namespace EnergySim.Studies.Lifetime;

/// <summary>Moves one cause at a time and gathers what that does to every figure.</summary>
internal sealed class BandStudy
{
    /// <summary>How much of a saving hourly data may overstate: literature finds self-use and exports shifted by 5–8 % (REES 2023 8:5).</summary>
    private const double HourlyOverstatement = 0.08;

    private const int CoarseMinutes = 60;

    private readonly LifetimeMoney _likely;
    private readonly AnnualRate _discount;
    private readonly List<(string Cause, LifetimeMoney A, LifetimeMoney B, bool Mirrors)> _cases = [];

    /// <param name="home">The home.</param>
    /// <param name="terms">What is assumed, nominal.</param>
    /// <param name="flows">The likely years.</param>
    /// <param name="moved">The years with one cause moved, in the order of <paramref name="causes"/>.</param>
    /// <param name="causes">What was moved.</param>
    /// <param name="likely">The likely money.</param>
    /// <exception cref="ArgumentException">A bound is below the saving that it bounds.</exception>
    public BandStudy(Home home, MoneyTerms terms, LifetimeFlows flows, IReadOnlyList<LifetimeFlows> moved, IReadOnlyList<BandCourses> causes, LifetimeMoney likely)
    {
        (_likely, _discount) = (likely, terms.Discount);
        PlanByYear plans = LifetimeRuns.PlanOf(home, terms);
        BandTerms bands = terms.Bands;
        LifetimeMoney Growing(double rate) => LifetimeMoney.Of(flows, terms with { Growth = terms.Growth.WithEnergy(rate) }, plans);
        for (int c = 0; c < causes.Count; c++)
            Add(causes[c].Cause, LifetimeMoney.Of(moved[2 * c], terms, plans), LifetimeMoney.Of(moved[(2 * c) + 1], terms, plans));
        Add(Words($"energy prices: {bands.GrowthLowFraction:0.# %} or {bands.GrowthHighFraction:0.# %} a year, not {terms.Growth.Energy:0.# %}"), Growing(bands.GrowthLowFraction), Growing(bands.GrowthHighFraction));
        if (BoundFactors(terms, likely) is double[] factors)
            Add("control: the rule as it is, or perfect foresight", likely, LifetimeMoney.Of(flows, terms, plans, factors));
        AddResolution(home, terms, flows, plans);
    }

    /// <summary>The causes for which the years are simulated again: weather and load.</summary>
    /// <param name="home">The home.</param>
    /// <param name="terms">What is assumed, nominal.</param>
    /// <param name="weatherYears">Other years of weather on the home's own days; none = the stated shares of the data's sun.</param>
    public static IReadOnlyList<BandCourses> Courses(Home home, MoneyTerms terms, IReadOnlyList<WeatherYear> weatherYears)
    {
        BandTerms bands = terms.Bands;
        var causes = new List<BandCourses>();
        if (home.Solar is not null && weatherYears.Count > 0) causes.Add(WeatherCourses(home, home.Solar, terms, weatherYears));
        else if (home.Solar is not null)
        {
            causes.Add(new BandCourses(
                Words($"weather: sun {bands.SolarLowFraction:0.# %} or {bands.SolarHighFraction:0.# %} of the data's"),
                new LifetimeCourse(home.Solar, bands.SolarLowFraction), new LifetimeCourse(home.Solar, bands.SolarHighFraction)));
        }
        causes.Add(new BandCourses(
            Words($"load: {bands.LoadFraction:0.# %} less or more"),
            new LifetimeCourse(home.Solar, 1, 1 - bands.LoadFraction), new LifetimeCourse(home.Solar, 1, 1 + bands.LoadFraction)));
        return causes;
    }

    /// <summary>The bands of an offer.</summary>
    /// <param name="offer">Its index.</param>
    /// <param name="before">Index of the offer that is taken from it; null = the home as it is.</param>
    public OfferBands Of(int offer, int? before = null)
    {
        bool priced = _likely.Offers[offer].Offer.Price is not null && (before is null || _likely.Offers[before.Value].Offer.Price is not null);
        double Of(LifetimeMoney money, Func<OfferMoney, double> figure) => figure(money.Offers[offer]) - (before is int b ? figure(money.Offers[b]) : 0);
        (double, double)[] cumulative = priced ? [.. Enumerable.Range(0, _likely.AsItIs.Count + 1).Select(t => Ends(BandOf(m => Of(m, o => o.Cash.Cumulative()[t]))))] : [];
        return new OfferBands
        {
            FirstYearSaving = BandOf(m => Of(m, o => (double)o.Years[0].Saving)),
            TotalSaving = BandOf(m => Of(m, o => (double)o.Years.Sum(y => y.Saving))),
            NetPresentValue = priced ? BandOf(m => Of(m, o => o.Cash.PresentValue(_discount))) : null,
            Cumulative = cumulative,
            EarliestPaybackYears = priced ? CashFlows.PaybackOf([.. cumulative.Select(c => c.Item2)]) : null,
            LatestPaybackYears = priced ? CashFlows.PaybackOf([.. cumulative.Select(c => c.Item1)]) : null,
        };
    }

    private Band BandOf(Func<LifetimeMoney, double> figure)
    {
        double likely = figure(_likely);
        return Band.Of(likely, [.. _cases.Select(c => c.Mirrors ? (c.Cause, likely, (2 * likely) - figure(c.A)) : (c.Cause, figure(c.A), figure(c.B)))]);
    }

    private static (double Low, double High) Ends(Band band) => (band.Low, band.High);

    private void Add(string cause, LifetimeMoney a, LifetimeMoney b) => _cases.Add((cause, a, b, false));

    // The years whose first offer saves about a tenth and nine tenths of the way up; each then stands for all the years to come.
    private static BandCourses WeatherCourses(Home home, HomeSolar own, MoneyTerms terms, IReadOnlyList<WeatherYear> others)
    {
        WeatherYear[] all = [new WeatherYear("the data's own", own.Profile), .. others];
        LifetimeCourse[] courses = [.. all.Select(y => new LifetimeCourse(own with { Profile = y.Solar }))];
        MoneyTerms oneYear = terms with { HorizonYears = 1 };
        PlanByYear plans = LifetimeRuns.PlanOf(home, oneYear);
        decimal[] savings = [.. LifetimeRuns.Of(home, oneYear, courses).Select(f => LifetimeMoney.Of(f, oneYear, plans).Offers[0].Years[0].Saving)];
        int[] bySaving = [.. Enumerable.Range(0, all.Length).OrderBy(i => savings[i])];
        int tenth = (int)Math.Round(0.1 * (all.Length - 1)), poor = bySaving[tenth], good = bySaving[all.Length - 1 - tenth];
        return new BandCourses(
            Words($"weather: like {all[poor].Name} or like {all[good].Name} in every year, of {all.Length} years"), courses[poor], courses[good]);
    }

    // What going to hours changes is about what the data's own means still hide, in the other direction.
    private void AddResolution(Home home, MoneyTerms terms, LifetimeFlows flows, PlanByYear plans)
    {
        if (home.Load.Axis.StepMinutes >= CoarseMinutes)
        {
            double[] factors = [.. flows.Offers.Select(_ => 1 - HourlyOverstatement)];
            Add(Words($"data: hourly means may overstate by {HourlyOverstatement:0.# %}"), _likely, LifetimeMoney.Of(flows, terms, plans, factors));
            return;
        }
        Profile Coarse(Profile fine) => fine.Resampled(CoarseMinutes);
        Home coarse = home with { Load = Coarse(home.Load), Solar = home.Solar is null ? null : home.Solar with { Profile = Coarse(home.Solar.Profile) } };
        LifetimeMoney hourly = LifetimeMoney.Of(LifetimeRuns.Of(coarse, terms), terms, plans);
        _cases.Add((Words($"data: what means over {home.Load.Axis.StepMinutes} minutes hide, taken as what hours would hide more"), hourly, hourly, true));
    }

    private static double[]? BoundFactors(MoneyTerms terms, LifetimeMoney likely)
    {
        if (terms.Bands.BoundSavingByOffer.Count == 0) return null;
        return [.. likely.Offers.Select(o =>
        {
            if (!terms.Bands.BoundSavingByOffer.TryGetValue(o.Offer.Name, out decimal bound)) return 1;
            decimal saving = o.Years[0].Saving;
            if (bound < saving - 1) throw new ArgumentException(Words($"{o.Offer.Name}: the bound of {bound:#,0.00} a year is below the saving of {saving:#,0.00} that it bounds."), nameof(terms));
            return saving > 0 ? Math.Max(1, (double)(bound / saving)) : 1;
        })];
    }

    private static string Words(FormattableString words) => words.ToString(CultureInfo.InvariantCulture);
}

/// <summary>A cause that is moved, and the two courses that it then takes.</summary>
/// <param name="Cause">The cause and its two cases, in words.</param>
/// <param name="A">One case.</param>
/// <param name="B">The other.</param>
internal sealed record BandCourses(string Cause, LifetimeCourse A, LifetimeCourse B);
