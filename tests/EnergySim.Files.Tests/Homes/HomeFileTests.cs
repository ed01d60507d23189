using EnergySim.Equipment;
using EnergySim.Strategies;
using EnergySim.Time;
using NodaTime;

namespace EnergySim.Files.Tests.Homes;

public class HomeFileTests
{
    [Fact]
    public void Read_SampleHome_GivesWhatItSays()
    {
        HomeReading reading = HomeFile.Read(Sample.PathOf("home.yaml"));
        Home home = reading.Home;
        Assert.Empty(reading.Repairs);
        Assert.Equal(("Alder House", "Riverbend (invented)", ""), (home.Name, home.Place, home.Note));
        Assert.Equal(new Service { Volts = 240, MainAmps = 200, ExportLimitKw = 10 }, home.Service);
        Assert.Equal("Evening Peak", home.Tariff.Name);
        Assert.Equal(new LocalDate(2024, 3, 15), home.Account.Anniversary);
        Assert.Empty(home.Account.ReadDates);
        Assert.Equal(48, home.Load.Axis.Count);
        Assert.Equal(new LocalDate(2025, 7, 1), home.Load.Axis.LocalDateOf(0));
        Assert.True(home.Load.Axis.IsSameAs(home.Solar!.Profile.Axis));
        Assert.Equal((true, 5d, 0.96), (home.Solar.IsDc, home.Solar.InverterKw, home.Solar.InverterEfficiency));
        Assert.Equal(5, home.Solar.Profile.Kw[12]);
        Battery ten = home.Offers[0].Battery;
        Assert.Equal(("ten", 10d, 0d, 5d, 5d, 5d), (ten.Name, ten.CapacityKwh, ten.LowestKwh, ten.ChargeLimitKw, ten.DischargeLimitKw, ten.InverterKw));
        Assert.Equal((0.97, 0.97, 0.96, 0.96), (ten.ChargeEfficiency, ten.DischargeEfficiency, ten.InverterEfficiency, ten.RectifierEfficiency));
        Assert.Equal((double.PositiveInfinity, 0.03, 0.1, true), (ten.SolarInputKw, ten.StandbyKw, ten.RestartFraction, ten.WakesBySolar));
        Assert.True(ten.ChargeTaper.IsNone);
        Offer two = home.Offers[1];
        Assert.Equal(("Two batteries", 2, 19500m, 40d, true), (two.Name, two.Units, two.Price, two.BreakerAmps, two.ReplacesSolarInverter));
        Assert.Equal((Steering.PeakWindow, 0.2), (two.Strategy.Base, two.Strategy.ReserveFraction));
        Assert.Equal([new ClockWindow(960, 1260)], two.Strategy.PeakWindows);
    }

    [Fact]
    public void Read_HomeWithEveryKey_FillsEveryRecord()
    {
        Home home = HomeFile.Read(Sample.PathOf("every-home-key.yaml")).Home;
        Assert.Equal("Nothing here was measured.", home.Note);
        Assert.Equal(
            new Service { Volts = 208, MainAmps = 125, ImportLimitKw = 15, ExportLimitKw = 0, GuardedBusbarAmps = 125, BusbarLimitKw = 20, RelievesImport = false }, home.Service);
        Assert.Equal((96, 30), (home.Load.Axis.Count, home.Load.Axis.StepMinutes));
        Assert.Equal(Instant.FromUtc(2025, 7, 1, 4, 0), home.Load.Axis.Start);
        // Rows 1 and 2 of the sample: 0.5 kWh in the hour that ends at 01:00, 0.6 kWh in the next.
        Assert.Equal([0.5, 0.5, 0.6], home.Load.Kw[..3].ToArray(), (a, b) => Math.Abs(a - b) < 1e-12);
        Assert.Equal((false, 4d), (home.Solar!.IsDc, home.Solar.InverterKw));
        Assert.Equal(3, home.Account.ReadDates.Count);
        Battery small = home.Offers[0].Battery;
        Assert.Equal((5.5, 0.5, 2.5, 3d, 3.3), (small.CapacityKwh, small.LowestKwh, small.ChargeLimitKw, small.DischargeLimitKw, small.InverterKw));
        Assert.Equal((0.97, 0.98, 0.96, 0.95), (small.ChargeEfficiency, small.DischargeEfficiency, small.InverterEfficiency, small.RectifierEfficiency));
        Assert.Equal((4d, 0.02, 0.15, false), (small.SolarInputKw, small.StandbyKw, small.RestartFraction, small.WakesBySolar));
        Assert.Equal([(0.9, 1), (1, 0.2)], small.ChargeTaper.Points);
        Assert.Equal([(0, 0.5), (0.1, 1)], small.DischargeTaper.Points);
        Strategy shaving = home.Offers[0].Strategy;
        Assert.Equal((Steering.DemandShaving, 2.5, 0.8, 0.2), (shaving.Base, shaving.ShaveToKw, shaving.RefillFraction, shaving.ReserveFraction));
        Assert.Equal(new OvernightCharge(new(0, 240), 0.9), shaving.Overnight);
        Assert.Equal(new BatterySale(new(1080, 1200), 0.8), shaving.Sale);
        Assert.Equal(new StormPreparation(Instant.FromUtc(2025, 7, 2, 10, 0), Instant.FromUtc(2025, 7, 3, 0, 0), 1), shaving.Storm);
        Assert.True(shaving.Ratchets);
        Assert.Equal(["peak"], home.Offers[1].Strategy.PeakPeriods);
        Strategy prices = home.Offers[2].Strategy;
        Assert.Equal((true, true, new OvernightCharge(new(0, 300), 0.9, 4)), (prices.KeepsForDearest, prices.SellsByPrice, prices.Overnight));
        Assert.Equal(shaving.Storm! with { ToFraction = 0.8, LeadHours = 6, Dark = new DarkAhead(2, 0.25) }, prices.Storm);
        Assert.Equal(IntegrityRule.SolarOnly, home.Offers[1].Strategy.Integrity);
        Assert.Equal((Steering.Hold, IntegrityRule.NeverExports), (home.Offers[3].Strategy.Base, home.Offers[3].Strategy.Integrity));
    }

    [Fact]
    public void Read_OtherTariff_TakesItsPlace()
    {
        Home home = HomeFile.Read(Sample.PathOf("home.yaml"), Sample.PathOf("evening-peak.yaml")).Home;
        Assert.Equal("Evening Peak", home.Tariff.Name);
    }
}
