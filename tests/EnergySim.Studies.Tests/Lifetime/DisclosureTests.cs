using System.Reflection;
using EnergySim.Economics;
using EnergySim.Studies.Lifetime;
using EnergySim.Studies.Outages;
using NodaTime;

namespace EnergySim.Studies.Tests.Lifetime;

public class DisclosureTests
{
    private static readonly AssumptionsTold s_all = new()
    {
        TariffName = "Evening peak",
        TariffDate = new LocalDate(2025, 1, 1),
        DataYear = "2025",
        Growth = "2 % a year",
        ExportRegime = "credited at a price of its own",
        StartOfOutageCharge = "what the everyday run holds",
        Band = "low to high of weather and load",
    };

    [Fact]
    public void Of_Everything_TellsEverything()
    {
        var disclosure = Disclosure.Of(s_all);
        Assert.Equal("Evening peak, prices of 2025-01-01", disclosure.Tariff);
        Assert.Equal(6, disclosure.All.Count);
        Assert.All(disclosure.All, a => Assert.NotEmpty(a.Words));
    }

    public static TheoryData<AssumptionsTold, string> OneMissing => new()
    {
        { s_all with { TariffName = " " }, "the tariff's name" },
        { s_all with { TariffDate = null }, "the tariff's date" },
        { s_all with { DataYear = null }, "the data's year" },
        { s_all with { Growth = "" }, "the growth of prices" },
        { s_all with { ExportRegime = null }, "what exports earn" },
        { s_all with { StartOfOutageCharge = null }, "the charge when an outage starts" },
        { s_all with { Band = null }, "the band" },
    };

    [Theory]
    [MemberData(nameof(OneMissing), DisableDiscoveryEnumeration = true)]
    public void Of_OneMissing_IsRefusedAndNamed(AssumptionsTold told, string missing)
    {
        MissingAssumptionsException refused = Assert.Throws<MissingAssumptionsException>(() => Disclosure.Of(told));
        Assert.Equal([missing], refused.Missing);
        Assert.Equal($"No saving is told without its assumptions; missing: {missing}.", refused.Message);
    }

    [Fact]
    public void Of_Nothing_NamesAllThatIsMissing() => Assert.Equal(7, Assert.Throws<MissingAssumptionsException>(() => Disclosure.Of(new AssumptionsTold())).Missing.Count);

    [Fact]
    public void Disclosure_HasNoOtherWayIn_AndNoHeadlineGoesWithoutIt()
    {
        Assert.Empty(typeof(Disclosure).GetConstructors(BindingFlags.Public | BindingFlags.Instance));
        ConstructorInfo only = Assert.Single(typeof(Headline).GetConstructors());
        Assert.Contains(only.GetParameters(), p => p.ParameterType == typeof(Disclosure));
        Assert.Throws<ArgumentNullException>(() => new Headline(null!, "One", "USD", 20, LifetimeStudy.Of(SmallHome.Of(SmallHome.Still)).Offers[0].Bands));
        PropertyInfo told = typeof(LifetimeResult).GetProperty(nameof(LifetimeResult.Disclosure))!;
        Assert.NotNull(told.GetCustomAttribute<System.Runtime.CompilerServices.RequiredMemberAttribute>());
    }

    [Fact]
    public void Study_OfATariffWithoutName_IsRefused()
    {
        Home home = SmallHome.Of(SmallHome.Still);
        var refused = Assert.Throws<MissingAssumptionsException>(() => LifetimeStudy.Of(home with { Tariff = home.Tariff with { Name = "" } }));
        Assert.Equal(["the tariff's name"], refused.Missing);
    }

    [Fact]
    public void Headline_HasItsBandInWords()
    {
        LifetimeResult result = LifetimeStudy.Of(SmallHome.Of(new MoneyTerms { HorizonYears = 6 }), new OutageTerms { StartCharge = StartCharge.Reserve });
        Band first = result.Offers[0].Bands.FirstYearSaving;
        Assert.StartsWith(FormattableString.Invariant($"One: saves {first.Likely:#,0} ({first.Low:#,0} to {first.High:#,0}) USD in the first year"), result.Headlines[0].Text, StringComparison.Ordinal);
        Assert.Equal("the reserve and no more", result.Disclosure.StartOfOutageCharge);
        Assert.Contains("energy 2 % a year", result.Disclosure.Growth, StringComparison.Ordinal);
    }
}
