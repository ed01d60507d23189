using EnergySim.Engine;
using EnergySim.Studies.Outages;
using NodaTime;

namespace EnergySim.Studies.Tests.Outages;

/// <summary>Turns of an outage's story, by the quarter of an hour; worked by hand, common practice.</summary>
public class SpellEventsTests
{
    private static readonly LocalDateTime s_start = new(2025, 1, 8, 0, 0);
    private static readonly OutageTerms s_terms = new() { HorizonHours = 24, NamedHours = 4, StartCharge = StartCharge.Full, NamedStart = s_start };

    // Load and sun by quarter hours of the day, kW.
    private static (SpellEventKind Kind, double Hour)[] Told(OutageTerms terms, Func<int, double> load, Func<int, double>? sun = null) =>
        [.. Events(terms, load, sun).Select(e => (e.Kind, e.Hour))];

    private static IReadOnlyList<SpellEvent> Events(OutageTerms terms, Func<int, double> load, Func<int, double>? sun = null) =>
        OutageStudy.Of(SmallHome.Of(SmallHome.Axis(6, 15), i => load(i % 96), sun is null ? null : i => sun(i % 96)), terms).Offers[0].Named.Events;

    [Fact]
    public void Full_IsToldAgainOnlyAfterATenthWasUsed()
    {
        // Half a kWh a quarter hour: 9.5, full, 9.5, 9.0, 9.75, full, 9.5, full, then nothing is asked.
        SpellEvent full = Assert.Single(Events(s_terms, i => i < 8 ? 2 : 0, i => i is 1 or 4 or 5 or 7 ? 5 : 0));
        Assert.Equal(new SpellEvent(SpellEventKind.Full, 1.25, s_start.PlusMinutes(75), 9.75), full);
    }

    [Fact]
    public void Overload_IsToldOnceASpan()
    {
        Assert.Equal(
            [(SpellEventKind.Overloaded, 0.5), (SpellEventKind.Overloaded, 1.5)],
            Told(s_terms, i => i is 2 or 3 or 6 ? 7 : 0.1));
        // Half a kW above the inverter for the first quarter hour.
        Assert.Equal([(SpellEventKind.Overloaded, 0.0)], Told(s_terms, i => i == 0 ? 5.5 : 0.1));
    }

    [Fact]
    public void Trip_IsToldAndThenThatTheHouseIsServedAgain()
    {
        (SpellEventKind Kind, double Hour)[] told = Told(s_terms with { ManagesLoad = false }, i => i == 4 ? 7 : 0.1);
        Assert.Equal((SpellEventKind.Tripped, 1.0), told[0]);
        Assert.Equal([SpellEventKind.Tripped, SpellEventKind.ServedAgain], told.Select(t => t.Kind));
        Assert.True(told[1].Hour > 1);
    }

    [Fact]
    public void Generator_IsToldAsItStartsAndStops()
    {
        // 1 kW from full: below a fifth after 8 h; 5 kW fill the 6 kWh to four fifths in an hour and a half; 6 h later it starts anew.
        OutageTerms terms = s_terms with { NamedHours = 17, Rules = new OutageRules { Generator = new Generator { Kw = 5 } } };
        IReadOnlyList<SpellEvent> events = Events(terms, _ => 1);
        Assert.Equal([SpellEventKind.GeneratorStarts, SpellEventKind.GeneratorStops, SpellEventKind.GeneratorStarts], events.Select(e => e.Kind));
        Assert.InRange(events[0].Hour, 8, 8.25);
        Assert.InRange(events[0].StoredKwh, 1.75, 2);
        Assert.InRange(events[1].Hour - events[0].Hour, 1.5, 2);
        Assert.InRange(events[2].Hour - events[1].Hour, 6, 6.5);
    }

    [Fact]
    public void Generator_OfBeforeTheStart_StartsWithTheOutage()
    {
        OutageTerms With(double kw) => s_terms with
        {
            StartCharge = StartCharge.Reserve,
            Rules = new OutageRules { Generator = new Generator { Kw = kw, StartBelowFraction = 0.5 } },
        };
        Assert.Equal((SpellEventKind.GeneratorStarts, 0.0), Told(With(5), _ => 1)[0]);
        // A small one too.
        Assert.Equal((SpellEventKind.GeneratorStarts, 0.0), Told(With(0.8), _ => 0.3)[0]);
    }

    [Fact]
    public void Dark_WhileNothingIsAsked_IsNotTold()
    {
        // 0.2 kW of its own use up the last of it; nobody asks for anything then.
        Home home = SmallHome.Of(SmallHome.Axis(6, 15), i => i % 96 < 16 ? 2 : 0, battery: SmallHome.Ten with { StandbyKw = 0.2 });
        NamedOutage named = OutageStudy.Of(home, s_terms with { NamedHours = 20 }).Offers[0].Named;
        Assert.NotNull(named.FirstDarkHours);
        Assert.Empty(named.Events);
    }

    [Fact]
    public void Empty_WhileNothingIsAsked_IsNotTold()
    {
        // 10 kWh for the first 5 h at 2 kW, nothing asked after.
        Assert.Empty(Told(s_terms with { NamedHours = 10 }, i => i < 20 ? 2 : 0));
        // The last two hours of ten are asked for again: nothing is left.
        Assert.Equal([(SpellEventKind.Empty, 8.0)], Told(s_terms with { NamedHours = 10 }, i => i is < 20 or >= 32 ? 2 : 0));
    }
}
