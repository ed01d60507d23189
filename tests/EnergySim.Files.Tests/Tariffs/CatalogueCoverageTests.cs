using EnergySim.Files.Tests.Schemas;
using EnergySim.Tariffs;

namespace EnergySim.Files.Tests.Tariffs;

/// <summary>Together the plans of tariffs/ use all that a tariff file can say; a key that none uses fails here by name.</summary>
public class CatalogueCoverageTests
{
    private static readonly Lazy<IReadOnlyList<Tariff>> s_tariffs = new(() => [.. CatalogueTests.Names.Select(n => TariffFile.Read(CatalogueTests.PathOf(n, ".yaml")))]);
    private static readonly Lazy<IReadOnlySet<string>> s_used = new(() => SchemaUse.Of(FileSchemas.Tariff, CatalogueTests.Names.Select(n => File.ReadAllText(CatalogueTests.PathOf(n, ".yaml")))));

    private static IEnumerable<TariffVersion> Versions => s_tariffs.Value.SelectMany(t => t.Versions);

    [Fact]
    public void Plans_UseEveryKeyOfEverySection()
    {
        // A later version's terms are those of the top.
        IEnumerable<string> keys = TariffSections.All.SelectMany(s => s.Keys.Select(k => $"{(s.Name == "later" ? "" : s.Name)}.{k}")).Distinct();
        Assert.Empty(keys.Except(s_used.Value));
    }

    [Fact]
    public void Plans_UseEveryWordThatAKeyCanHold() => Assert.Empty(SchemaUse.All(FileSchemas.Tariff).Where(w => w.Contains('=', StringComparison.Ordinal)).Except(s_used.Value));

    [Fact]
    public void Plans_UseEveryRegime()
    {
        IEnumerable<Type> regimes = typeof(ExportTerms).GetNestedTypes().Where(t => t.IsSubclassOf(typeof(ExportTerms)));
        Assert.Empty(regimes.Except(Versions.Select(v => v.Export.GetType())));
    }

    [Fact]
    public void WorkedBills_HoldEveryKindOfLine()
    {
        HashSet<string> kinds = [.. CatalogueTests.Names.SelectMany(n => BillCsv.Read(CatalogueTests.PathOf(n, ".bill.csv"))).SelectMany(b => b.Lines).Select(l => l.Kind)];
        Assert.Empty(new[] { "tier", "event", "fixed", "demand", "export", "export charge", "credit", "minimum", "settlement", "rounding" }.Except(kinds));
    }

    [Fact]
    public void Plans_UseWhatHasNoKeyOfItsOwn()
    {
        Assert.Contains(Versions, v => v.Periods.Any(p => p.Window.FromMinute > p.Window.ToMinute && p.Window.ToMinute > 0));
        Assert.Contains(Versions, v => v.Seasons.Any(s => s.From.Order > s.To.Order));
        Assert.Contains(Versions, v => v.Seasons.Any(s => s.From.Day != 1));
        Assert.Contains(Versions, v => v.EnergyPrices.SelectMany(p => p.Parts).Any(p => p.PricePerKwh < 0));
        Assert.Contains(Versions, v => v.EnergyPrices.Any(p => p.Parts.Count > 2));
        Assert.Contains(Versions, v => v.Percentages.Any(p => p.Rate < 0));
        Assert.Contains(Versions, v => v.Percentages.Any(p => p.Of.Count == 0));
        Assert.Contains(Versions, v => v.Percentages.Any(p => p.Of.Any(of => v.Percentages.Any(q => q.Name == of))));
        Assert.Contains(Versions, v => v.Tiers is { AllowanceKwhPerDay.Count: > 1, Steps.Count: > 0, CreditPerKwh: not null });
        Assert.Contains(Versions, v => v.Demand.Any(d => d.PriceBySeason is not null) && v.Demand.Any(d => d.Season is not null));
        Assert.Equal([15, 30, 60], Versions.SelectMany(v => v.Demand).Select(d => d.Minutes).Distinct().Order());
        Assert.Contains(s_tariffs.Value, t => t.Versions.Count > 2);
        Assert.True(s_tariffs.Value.Select(t => t.Currency).Distinct().Count() > 1);
    }

    /// <summary>The flows beside a plan show more than prices: bills by read dates, a season or a price that changes inside a bill.</summary>
    [Fact]
    public void Flows_CrossSeasonsPricesAndYears()
    {
        var calendars = CatalogueTests.Names.Zip(s_tariffs.Value, (name, tariff) =>
        {
            CatalogueFlows flows = CatalogueFlows.Read(CatalogueTests.PathOf(name, ".flows.csv"), tariff.Zone);
            return (flows.Account, Calendar: new TariffCalendar(tariff, flows.Axis, flows.Account));
        }).ToList();
        Assert.Contains(calendars, c => c.Account.ReadDates.Count > 0);
        Assert.Contains(calendars, c => c.Account.ReadDates.Count == 0);
        Assert.Contains(calendars, c => c.Calendar.Parts.Keys.GroupBy(p => (p.Bill, p.Version)).Any(g => g.Count() > 1));
        Assert.Contains(calendars, c => c.Calendar.Parts.Keys.GroupBy(p => (p.Bill, p.Season)).Any(g => g.Count() > 1));
        Assert.Contains(calendars, c => c.Calendar.Bills.Any(b => b.SettlementYear > 0));
    }
}
