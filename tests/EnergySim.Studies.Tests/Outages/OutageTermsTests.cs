using EnergySim.Engine;
using EnergySim.Profiles;
using EnergySim.Studies.Outages;
using NodaTime;

namespace EnergySim.Studies.Tests.Outages;

/// <summary>Ranges of what is asked: their edges are taken, what lies beyond is refused (common practice).</summary>
public class OutageTermsTests
{
    private static readonly OutageTerms s_plain = new();

    [Fact]
    public void Defaults_WhenNothingIsStated_AreTwoWeeksWalkedAndThreeDaysTold()
    {
        var plain = new OutageTerms();
        plain.Validate();
        Assert.Equal((336, 72, 12.0, 1.0, true), (plain.HorizonHours, plain.NamedHours, plain.StormLeadHours, plain.CloudFactor, plain.ManagesLoad));
        Assert.Equal((24.0, 0.9), (plain.Wish.Hours, plain.Wish.ShareOfStarts));
    }

    [Fact]
    public void Ranges_AtTheirEdges_AreAccepted()
    {
        new OutageTerms { HorizonHours = 8760, NamedHours = 8760, StormLeadHours = 336, Wish = new OutageWish(8760, 1) }.Validate();
        new OutageTerms { CloudFactor = 2, CloudFactorByDay = [0, 2] }.Validate();
        new OutageTerms { HorizonHours = 1, NamedHours = 1, CloudFactor = 0, StormLeadHours = 0, Wish = new OutageWish(0.5, 0.001) }.Validate();
        foreach (LegShares legs in (LegShares[])[new(0, 0), new(1, 0), new(0, 1), new(0.1, 0.9)]) (s_plain with { Legs = legs }).Validate();
        (s_plain with { Durations = new OutageDurations { Source = "made up", Kinds = [new OutageKind("none", 0, 1)] } }).Validate();
        LoadSource lamp = Watts(0);
        foreach (double kept in (double[])[0, 1])
            (s_plain with { Kept = Parted(new LoadPart { Name = "lamp", Source = lamp, KeptFraction = kept }) }).Validate();
        foreach (double share in (double[])[0, 1]) (s_plain with { Kept = KeptLoad.Share(share) }).Validate();
    }

    [Fact]
    public void Ranges_Beyond_AreRefusedByName()
    {
        foreach ((string name, OutageTerms terms, string words) in Faults())
        {
            ArgumentException fault = Assert.Throws<ArgumentException>(terms.Validate);
            Assert.True(fault.Message.Contains(words, StringComparison.Ordinal), $"{name}: {fault.Message}");
        }
    }

    [Theory]
    [InlineData("2025-01-15T18:30", "2025-01-15T18:30:00")]
    [InlineData("2025-01-15", "2025-01-15T00:00:00")]
    [InlineData("15 January", null)]
    public void TryParseStart_OfDateOrTime_IsALocalStart(string text, string? expected)
    {
        Assert.Equal(expected is not null, OutageTerms.TryParseStart(text, out LocalDateTime start));
        if (expected is not null) Assert.Equal(expected, start.ToString("uuuu-MM-dd'T'HH:mm:ss", null));
    }

    private static LoadSource Watts(double watts) => new() { Appliances = [new Appliance { Name = "lamp", Watts = watts }] };

    private static KeptLoad Parted(LoadPart part) => new() { Parts = [part] };

    private static IEnumerable<(string Name, OutageTerms Terms, string Words)> Faults()
    {
        foreach (int hours in (int[])[0, 8761])
        {
            yield return ($"horizon {hours}", s_plain with { HorizonHours = hours }, "horizon");
            yield return ($"named {hours}", s_plain with { NamedHours = hours }, "outage is");
        }
        foreach (double factor in (double[])[-0.01, 2.01, double.NaN])
        {
            yield return ($"cloud {factor}", s_plain with { CloudFactor = factor }, "cloud factor");
            yield return ($"cloud by day {factor}", s_plain with { CloudFactorByDay = [1, factor] }, "cloud factor");
        }
        yield return ("charge", s_plain with { StartCharge = (StartCharge)9 }, "start charge");
        foreach (double hours in (double[])[-1, 336.5]) yield return ($"lead {hours}", s_plain with { StormLeadHours = hours }, "storm");
        foreach (OutageWish wish in (OutageWish[])[new(0, 0.9), new(337, 0.9), new(24, 0), new(24, 1.1), new(-1, 0.9)])
            yield return ($"{wish}", s_plain with { Wish = wish }, "wish");
        var shed = new SheddableLoad("pump", Profile.Zero(SmallHome.Axis(1)), 0.5, 0.6);
        yield return ("shed by rule", s_plain with { Rules = new OutageRules { Sheddable = [shed] } }, "stated with what is kept");
        yield return ("held back", s_plain with { Rules = new OutageRules { HeldBackFraction = 1 } }, "held back");
        foreach (LegShares legs in (LegShares[])[new(-0.1, 0.5), new(0.5, -0.1), new(0.7, 0.4), new(double.NaN, 0)])
            yield return ($"{legs}", s_plain with { Legs = legs }, "legs");
        foreach (OutageKind kind in (OutageKind[])[new("bad", -1, 4), new("bad", 1, 0), new("bad", 1, -4)])
            yield return ($"{kind}", s_plain with { Durations = new OutageDurations { Source = "made up", Kinds = [kind] } }, "bad");
        foreach (double share in (double[])[-0.1, 1.1])
            yield return ($"share {share}", s_plain with { Kept = KeptLoad.Share(share) }, "kept running");
        yield return ("no source", s_plain with { Kept = new KeptLoad { Base = new LoadSource() } }, "one of them");
        yield return ("two sources", s_plain with { Kept = new KeptLoad { Base = Watts(1) with { HouseFraction = 1 } } }, "one of them");
        foreach (double watts in (double[])[-1, double.PositiveInfinity, double.NaN])
            yield return ($"watts {watts}", s_plain with { Kept = new KeptLoad { Base = Watts(watts) } }, "lamp");
        foreach (LoadPart part in (LoadPart[])
            [
                new() { Name = "pump", Source = new LoadSource() },
                new() { Name = "pump", Source = Watts(1), KeptFraction = -0.1 },
                new() { Name = "pump", Source = Watts(1), KeptFraction = 1.1 },
                new() { Name = "pump", Source = Watts(1), OnAboveFraction = 0.5 },
            ])
            yield return ($"{part}", s_plain with { Kept = Parted(part) }, "pump");
    }
}
