using EnergySim.Engine;
using EnergySim.Profiles;
using EnergySim.Studies.Outages;
using EnergySim.Time;
using NodaTime;

namespace EnergySim.Studies.Tests.Outages;

public class KeptLoadTests
{
    private static readonly OutageTerms s_terms = new() { HorizonHours = 48, NamedHours = 48, StartCharge = StartCharge.Full, NamedStart = new LocalDateTime(2025, 1, 8, 0, 0) };

    private static double[] LoadOf(Home home, KeptLoad kept, int hours = 24) =>
        OutageStudy.Of(home, s_terms with { Kept = kept }).Offers[0].Named.Ledger[LedgerColumn.LoadKw][..hours].ToArray();

    [Fact]
    public void Parts_AreTakenOutOfTheHouseAndTheShareIsOfTheRest()
    {
        // 2 kW: 0.8 of heating at 60 %, 0.4 of a vehicle off, half of the 0.8 that is left.
        Home home = SmallHome.Of(SmallHome.Axis(10), _ => 2);
        var kept = new KeptLoad
        {
            Base = LoadSource.Share(0.5),
            Parts =
            [
                new LoadPart { Name = "heating", Source = LoadSource.Share(0.4), KeptFraction = 0.6 },
                new LoadPart { Name = "vehicle", Source = LoadSource.Share(0.2), KeptFraction = 0 },
            ],
        };
        Assert.All(LoadOf(home, kept), kw => Assert.Equal(0.4 + 0.48, kw, 9));
    }

    [Fact]
    public void ManagedVehicle_IsOffInAnOutageAndNotMadeUpFor()
    {
        // TRADE §6.2 case 38 (common practice): the vehicle draws 3 kW of the house's 4 from 01:00 to 04:00; in the outage and after it nothing.
        TimeAxis axis = SmallHome.Axis(10);
        Home home = SmallHome.Of(axis, i => i % 24 is >= 1 and < 4 ? 4 : 1);
        var vehicle = new Profile(axis, [.. Enumerable.Range(0, axis.Count).Select(i => i % 24 is >= 1 and < 4 ? 3.0 : 0)]);
        var kept = new KeptLoad { Parts = [new LoadPart { Name = "vehicle", Source = new LoadSource { Profile = vehicle }, KeptFraction = 0 }] };
        Assert.All(LoadOf(home, kept, 48), kw => Assert.Equal(1, kw, 9));
        Assert.Contains(OutageStudy.Of(home, s_terms with { Kept = kept }).Notes, n => n.Contains("vehicle off", StringComparison.Ordinal) && n.Contains("not made up", StringComparison.Ordinal));
    }

    [Fact]
    public void Appliances_RunAtTheirHoursOnTheirDays()
    {
        // Wednesday 8 January: refrigerator all day, lights in the evening, nothing of the weekend's.
        Home home = SmallHome.Of(SmallHome.Axis(10), _ => 5);
        var list = new LoadSource
        {
            Appliances =
            [
                new Appliance { Name = "refrigerator", Watts = 100 },
                new Appliance { Name = "lights", Watts = 300, Window = new ClockWindow(18 * 60, 22 * 60), Days = ApplianceDays.Weekdays },
                new Appliance { Name = "oven", Watts = 2000, Window = new ClockWindow(12 * 60, 13 * 60), Days = ApplianceDays.Weekends },
            ],
        };
        double[] day = LoadOf(home, new KeptLoad { Base = list });
        Assert.Equal([.. Enumerable.Range(0, 24).Select(h => h is >= 18 and < 22 ? 0.4 : 0.1)], day.Select(kw => Math.Round(kw, 9)));
        double[] saturday = OutageStudy.Of(home, s_terms with { Kept = new KeptLoad { Base = list }, NamedStart = new LocalDateTime(2025, 1, 11, 0, 0) }).Offers[0].Named.Ledger[LedgerColumn.LoadKw][..24].ToArray();
        Assert.Equal([.. Enumerable.Range(0, 24).Select(h => h == 12 ? 2.1 : 0.1)], saturday.Select(kw => Math.Round(kw, 9)));
    }

    [Fact]
    public void PartsAboveTheHouse_AreCutDownToItAndTold()
    {
        Home home = SmallHome.Of(SmallHome.Axis(10), _ => 1);
        var kept = new KeptLoad { Parts = [new LoadPart { Name = "oven", Source = new LoadSource { Appliances = [new Appliance { Name = "oven", Watts = 3000 }] } }] };
        OutageResult result = OutageStudy.Of(home, s_terms with { Kept = kept });
        Assert.Equal(1, result.Offers[0].Named.Ledger[LedgerColumn.LoadKw][0], 9);
        Assert.Contains(result.Notes, n => n.Contains("480.0 kWh more than the house used", StringComparison.Ordinal));
    }

    [Fact]
    public void ShedPart_LastsLongerAndIsNotCountedAsUnserved()
    {
        // 10 kWh, 1 kW always, 1 kW shed below half: 2 kW for 2 h 30 min, then 1 kW: 7 whole hours of 1 kW after three of 2.
        Home home = SmallHome.Of(SmallHome.Axis(10), _ => 2);
        OfferOutages Of(double? off) => OutageStudy.Of(home, s_terms with
        {
            Kept = new KeptLoad { Parts = [new LoadPart { Name = "pump", Source = LoadSource.Share(0.5), OffBelowFraction = off }] },
        }).Offers[0];
        Assert.Equal(5, Of(null).Any.HoursLastedBy(0.5));
        OfferOutages shed = Of(0.5);
        Assert.Equal(7, shed.Any.HoursLastedBy(0.5));
        // 48 h less the three hours in which it ran.
        Assert.Equal(45, shed.Named.Ledger.Sums.ShedKwh, 9);
    }
}
