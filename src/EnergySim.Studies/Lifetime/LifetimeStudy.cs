using EnergySim.Economics;
using EnergySim.Studies.Finance;
using EnergySim.Studies.Outages;

namespace EnergySim.Studies.Lifetime;

/// <summary>Works out a <see cref="LifetimeResult"/>: every year simulated again, priced, paid for, with its bands.</summary>
public static class LifetimeStudy
{
    /// <summary>Asks what a home's offers come to over the years that its money terms state.</summary>
    /// <param name="home">The home.</param>
    /// <param name="outage">What is asked of outages beside these figures: the charge when one starts, which is told, and years of weather, which make a band; null = the defaults.</param>
    /// <exception cref="ArgumentException">The data are not of one year, a term is out of its range, or an offer cannot be run.</exception>
    /// <exception cref="MissingAssumptionsException">An assumption that belongs to every saving is not known.</exception>
    public static LifetimeResult Of(Home home, OutageTerms? outage = null)
    {
        ArgumentNullException.ThrowIfNull(home);
        if (home.Offers.Count == 0) throw new ArgumentException("The home has no offer.", nameof(home));
        outage ??= new OutageTerms();
        MoneyTerms terms = home.Money.InNominal();
        IReadOnlyList<BandCourses> causes = BandStudy.Courses(home, terms, outage.WeatherYears);
        IReadOnlyList<LifetimeFlows> courses = LifetimeRuns.Of(home, terms, [new LifetimeCourse(home.Solar), .. causes.SelectMany(c => new[] { c.A, c.B })]);
        LifetimeFlows flows = courses[0];
        PlanByYear plans = LifetimeRuns.PlanOf(home, terms);
        LifetimeMoney money = LifetimeMoney.Of(flows, terms, plans);
        var bands = new BandStudy(home, terms, flows, [.. courses.Skip(1)], causes, money);
        LifetimeOffer[] offers = [.. money.Offers.Select((o, i) => Told(o, terms, bands.Of(i)))];
        var disclosure = Disclosure.Of(LifetimeWords.Told(home, terms, flows, outage.StartCharge, offers[0].Bands));
        return new LifetimeResult
        {
            Home = home.Name,
            Currency = home.Tariff.Currency,
            From = plans.FirstDayOf(1),
            Terms = terms,
            Disclosure = disclosure,
            Headlines = [.. offers.Select(o => new Headline(disclosure, o.Name, home.Tariff.Currency, terms.HorizonYears, o.Bands))],
            AsItIs = money.AsItIs,
            Offers = offers,
            BreakEvens = new BreakEvenStudy(home, terms, flows, money, bands).All(),
            NotQuantified = LifetimeWords.NotQuantified(home, terms, outage),
            Notes = LifetimeWords.Notes(home, terms, money, plans.FirstDayOf(1)),
        };
    }

    /// <summary>The bills of every year and column, without bands, indicators or words: first the home as it is, then each offer. Not a saving that may be told.</summary>
    /// <inheritdoc cref="Of"/>
    public static IReadOnlyList<IReadOnlyList<decimal>> BillsByYear(Home home)
    {
        ArgumentNullException.ThrowIfNull(home);
        MoneyTerms terms = home.Money.InNominal();
        LifetimeMoney money = LifetimeMoney.Of(LifetimeRuns.Of(home, terms), terms, LifetimeRuns.PlanOf(home, terms));
        return [[.. money.AsItIs.Select(y => y.Bill)], .. money.Offers.Select(o => o.Years.Select(y => y.Bill).ToArray())];
    }

    private static LifetimeOffer Told(OfferMoney money, MoneyTerms terms, OfferBands bands) => new()
    {
        Name = money.Offer.Name,
        BatteryUnits = money.Offer.Units,
        Price = money.Offer.Price,
        UpfrontIncentives = money.UpfrontIncentives,
        Years = money.Years,
        WarrantyEnd = money.WarrantyEnd,
        Indicators = money.Indicators,
        Ways = Financed.Of(money, terms),
        BackupValue = terms.BackupValuePerYear is decimal own ? BackupValue(money, terms, own) : null,
        Bands = bands,
    };

    // In service only; at the prices of each year.
    private static double BackupValue(OfferMoney money, MoneyTerms terms, decimal perYear) => new CashFlows
    {
        Basis = MoneyBasis.Nominal,
        Upfront = 0,
        Yearly = [.. money.Years.Select((y, t) => y.CapacityFraction > 0 ? (double)perYear * GrownPlan.Factor(terms.InflationFraction, t) : 0)],
    }.PresentValue(terms.Discount);
}
