#:project ../src/EnergySim.Files
#:property RestoreLockedMode=false
#:property RestorePackagesWithLockFile=false
#:property PublishAot=false

//# # Holding the engine against a case worked by hand
//# One day in hours: a home that draws 1 kW, panels that give 4 kW AC from 10:00 to 14:00, a battery of 10 kWh with a way in of 0.9, a way out of
//# 0.8 and an inverter without loss, empty at midnight. It charges from the sun and serves the house.

using EnergySim.Engine;
using EnergySim.Equipment;
using EnergySim.Profiles;
using EnergySim.Strategies;
using EnergySim.Time;
using EnergySim.Wiring;
using NodaTime;

var axis = new TimeAxis(DateTimeZone.Utc, Instant.FromUtc(2025, 6, 1, 0, 0), 60, 24);
var load = new Profile(axis, Enumerable.Repeat(1.0, 24).ToArray());
var sun = new Profile(axis, Enumerable.Range(0, 24).Select(h => h is >= 10 and < 14 ? 4.0 : 0).ToArray());
var plant = new Plant { HighestKwh = 10, ChargeLimitKw = 5, DischargeLimitKw = 5, ChargeEfficiency = 0.9, DischargeEfficiency = 0.8, InverterKw = 5 };
var wanted = SetPoints.Always(new SetPointRow(0, 10, 0, 0, double.PositiveInfinity), 24);
Ledger ledger = new Run(load, null, sun, plant, SiteLimits.None, wanted, startKwh: 0).Ledger();

//# By hand: of 4 kW the house takes 1, so 3 kW charge for four hours. Three hours store 3 × 0.9 = 2.7 kWh each, 8.1 kWh; the fourth has room for
//# 1.9 kWh, which takes 1.9 / 0.9 = 2.111 kW, and 0.889 kW are sold. From 14:00 the house takes 1 kW, 1 / 0.8 = 1.25 kWh an hour out of the cells:
//# 10 / 1.25 = 8 hours, to 22:00. Bought: ten hours before the sun and two after, 12 kWh. Sold: 0.889 kWh.

void Check(string what, double engine, double hand)
{
    Console.WriteLine(FormattableString.Invariant($"{what}: engine {engine:0.000000}, by hand {hand:0.000000}"));
    if (Math.Abs(engine - hand) > 1e-9) throw new InvalidOperationException($"{what} differs.");
}
double[] stored = ledger[LedgerColumn.StoredKwh].ToArray();
Check("stored at 13:00, kWh", stored[12], 8.1);
Check("stored at 14:00, kWh", stored[13], 10);
Check("stored at 22:00, kWh", stored[21], 0);
Check("bought, kWh", ledger.Sums.Kwh(LedgerColumn.ImportKw), 12);
Check("sold, kWh", ledger.Sums.Kwh(LedgerColumn.ExportKw), 3 - (1.9 / 0.9));
Check("served from the cells, kWh", ledger.Sums.Kwh(LedgerColumn.CellsToLoadKw), 8);
