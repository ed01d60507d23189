using EnergySim.Engine;
using EnergySim.Profiles;
using EnergySim.Studies.Outages;

namespace EnergySim.Studies.Tests.Outages;

/// <summary>What runs in an outage, worked by hand (common practice).</summary>
public class OutageLoadsTests
{
    private static readonly Profile s_house = SmallHome.Of(SmallHome.Axis(1, 15), _ => 2).Load;

    private static LoadPart Pump(double? off, double? on = null, double kept = 1) =>
        new() { Name = "pump", Source = LoadSource.Share(0.5), OffBelowFraction = off, OnAboveFraction = on, KeptFraction = kept };

    [Theory]
    [InlineData(0.5, null, 0.6)]
    [InlineData(0.5, 0.9, 0.9)]
    [InlineData(0.95, null, 1)]
    public void ShedPart_ComesOnATenthAboveUnlessStated(double off, double? on, double expected)
    {
        SheddableLoad shed = Assert.Single(OutageLoads.Of(s_house, new KeptLoad { Parts = [Pump(off, on)] }).Sheddable);
        Assert.Equal((off, Math.Round(expected, 12)), (shed.OffBelowFraction, Math.Round(shed.OnAboveFraction, 12)));
    }

    [Fact]
    public void ShedPart_IsPartOfEverythingAndNotOfWhatIsAlwaysOn()
    {
        OutageLoads loads = OutageLoads.Of(s_house, new KeptLoad { Parts = [Pump(0.5, kept: 0.5)] });
        Assert.All(loads.Always.Kw.ToArray(), kw => Assert.Equal(1, kw));
        Assert.All(loads.Everything.Kw.ToArray(), kw => Assert.Equal(1.5, kw));
    }

    [Fact]
    public void PartThatIsOff_IsNotShed()
    {
        OutageLoads loads = OutageLoads.Of(s_house, new KeptLoad { Parts = [Pump(0.5, kept: 0)] });
        Assert.Empty(loads.Sheddable);
        Assert.All(loads.Always.Kw.ToArray(), kw => Assert.Equal(1, kw));
    }

    [Theory]
    [InlineData(2001, "0.0 kWh", false)]
    [InlineData(2004, "0.1 kWh", true)]
    [InlineData(3000, "24.0 kWh", true)]
    public void PartsAboveTheHouse_AreToldFromATwentiethOfAKwhOn(double watts, string words, bool told)
    {
        // Over 24 h: 0.024, 0.096 and 24 kWh.
        var oven = new LoadPart { Name = "oven", Source = new LoadSource { Appliances = [new Appliance { Name = "oven", Watts = watts }] } };
        OutageLoads loads = OutageLoads.Of(s_house, new KeptLoad { Parts = [oven] });
        Assert.Equal(told, loads.Notes.Any(n => n.Contains(words, StringComparison.Ordinal)));
        Assert.Equal(told ? 1 : 0, loads.Notes.Count);
        Assert.All(loads.Always.Kw.ToArray(), kw => Assert.Equal(2, kw, 9));
    }

    [Fact]
    public void Profile_OnAnotherAxis_IsRefused()
    {
        var kept = new KeptLoad { Base = new LoadSource { Profile = Profile.Zero(SmallHome.Axis(1)) } };
        Assert.Contains("not on the axis", Assert.Throws<ArgumentException>(() => OutageLoads.Of(s_house, kept)).Message, StringComparison.Ordinal);
    }
}
