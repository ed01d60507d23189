using System.Globalization;
using System.Text.Json;
using EnergySim.Billing;
using EnergySim.Engine;
using EnergySim.Equipment;
using EnergySim.Profiles;
using EnergySim.Strategies;
using EnergySim.Studies;
using EnergySim.Time;
using EnergySim.Wiring;
using NodaTime;

namespace EnergySim.Files.Tests.Results;

public sealed class ResultFileTests : IDisposable
{
    private static readonly DateTimeZone s_zone = DateTimeZoneProviders.Tzdb["America/New_York"];
    private readonly TempFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public void LedgerCsv_OfADayThatRepeatsAnHour_HoldsEveryNumberAsItIs()
    {
        Ledger ledger = RunOf(new LocalDate(2025, 11, 2)).Ledger();
        string path = Path.Combine(_folder.Path, "ledger.csv");
        LedgerCsv.Write(path, ledger);
        string text = File.ReadAllText(path);
        Assert.DoesNotContain('\r', text);
        string[] lines = text.TrimEnd('\n').Split('\n');
        // The columns of ENGINE.md, section 5.
        Assert.Equal(
            "start_utc,start_local,load_kw,standby_kw,solar_dc_kw,solar_ac_kw,clipped_input_kw,solar_dc_to_load_kw,solar_ac_to_load_kw,solar_dc_to_cells_kw,"
            + "solar_ac_to_cells_kw,grid_to_cells_kw,inverter_in_kw,inverter_out_kw,cells_to_load_kw,cells_to_grid_kw,solar_to_grid_kw,curtailed_dc_kw,"
            + "curtailed_ac_kw,import_kw,export_kw,unserved_kw,overload_kw,stored_kwh,dark,limits",
            lines[0]);
        Assert.Equal(1 + 25, lines.Length);
        Assert.StartsWith("2025-11-02T05:00:00Z,2025-11-02T01:00:00-04:00,", lines[2], StringComparison.Ordinal);
        Assert.StartsWith("2025-11-02T06:00:00Z,2025-11-02T01:00:00-05:00,", lines[3], StringComparison.Ordinal);
        for (int i = 0; i < 25; i++)
        {
            string[] fields = lines[i + 1].Split(',');
            foreach (LedgerColumn column in Enum.GetValues<LedgerColumn>())
                Assert.Equal(ledger[column][i], double.Parse(fields[2 + (int)column], CultureInfo.InvariantCulture));
            Assert.Equal(ledger.LimitsOf(i), fields[^1]);
        }
        Assert.Contains(lines, l => l.EndsWith(",floor", StringComparison.Ordinal));
    }

    [Fact]
    public void WholeFile_WriterThatFails_LeavesWhatStoodThere()
    {
        string path = _folder.Write("result.csv", "old");
        Assert.Throws<InvalidOperationException>(() => WholeFile.Write(path, stream =>
        {
            stream.Write("half"u8);
            throw new InvalidOperationException();
        }));
        Assert.Equal("old", File.ReadAllText(path));
        Assert.Equal(path, Assert.Single(Directory.GetFiles(_folder.Path)));
        WholeFile.Write(path, stream => stream.Write("new"u8));
        Assert.Equal("new", File.ReadAllText(path));
        Assert.Equal(path, Assert.Single(Directory.GetFiles(_folder.Path)));
    }

    [Fact]
    public void ComparisonJson_OfAColumn_HasTheAgreedNamesAndNumbers()
    {
        RunSums sums = RunOf(new LocalDate(2025, 7, 1)).Sums();
        var line = new BillLine { Kind = "supply", Name = "Supply, \"peak\"", Quantity = 12.345678m, Unit = "kWh", UnitPrice = 0.25m, Unrounded = 3.0864195m };
        var comparison = new Comparison
        {
            Home = "Alder House",
            Tariff = "Plain, 2025-01-01",
            Currency = "USD",
            StepMinutes = 60,
            From = new(2025, 7, 1),
            To = new(2025, 7, 1),
            Notes = ["A day is no year."],
            Columns =
            [
                new ComparisonColumn
                {
                    Name = "As it is",
                    BatteryUnits = 0,
                    Price = null,
                    AnnualBill = 3.09m,
                    AnnualSaving = 0,
                    AddedSaving = 0,
                    OwnSupplyFraction = 0.5,
                    EquivalentFullCycles = 0.25,
                    SolarKwh = 7.5,
                    CurtailedKwh = 0.5,
                    LimitHours = new Dictionary<Limit, double> { [Limit.Floor] = 3 },
                    Sums = sums,
                    Bills = new BillSet { Currency = "USD", Notes = [], Bills = [new Bill { From = new(2025, 7, 1), To = new(2025, 7, 31), Lines = [line] }] },
                },
            ],
        };
        using var stream = new MemoryStream();
        ComparisonJson.Write(stream, comparison);
        JsonElement root = JsonDocument.Parse(stream.ToArray()).RootElement;
        Assert.Equal(["home", "tariff", "currency", "stepMinutes", "from", "to", "notes", "columns"], NamesOf(root));
        Assert.Equal(("2025-07-01", 60), (root.GetProperty("from").GetString(), root.GetProperty("stepMinutes").GetInt32()));
        JsonElement column = root.GetProperty("columns")[0];
        Assert.Equal(
            [
                "name", "batteryUnits", "price", "annualBill", "annualSaving", "addedSaving", "importKwh", "exportKwh", "loadKwh", "standbyKwh", "solarKwh",
                "curtailedKwh", "ownSupplyFraction", "equivalentFullCycles", "overloadKwh", "storedStartKwh", "storedEndKwh", "limitHours", "months",
            ],
            NamesOf(column));
        Assert.Equal(JsonValueKind.Null, column.GetProperty("price").ValueKind);
        Assert.Equal(3.09m, column.GetProperty("annualBill").GetDecimal());
        Assert.Equal(sums.Kwh(LedgerColumn.ImportKw), column.GetProperty("importKwh").GetDouble(), 1e-6);
        Assert.Equal(24, column.GetProperty("loadKwh").GetDouble(), 1e-6);
        Assert.Equal(3, column.GetProperty("limitHours").GetProperty("floor").GetDouble());
        JsonElement month = column.GetProperty("months")[0];
        Assert.Equal(["from", "to", "bill", "lines"], NamesOf(month));
        Assert.Equal(("2025-07-31", 3.09m), (month.GetProperty("to").GetString(), month.GetProperty("bill").GetDecimal()));
        JsonElement told = month.GetProperty("lines")[0];
        Assert.Equal(["kind", "name", "quantity", "unit", "unitPrice", "amount"], NamesOf(told));
        Assert.Equal("Supply, \"peak\"", told.GetProperty("name").GetString());
        Assert.Equal((12.345678m, 0.25m, 3.09m), (told.GetProperty("quantity").GetDecimal(), told.GetProperty("unitPrice").GetDecimal(), told.GetProperty("amount").GetDecimal()));
    }

    private static IEnumerable<string> NamesOf(JsonElement at) => at.EnumerateObject().Select(p => p.Name);

    // A day of 1 kW of load with 1/3 kW of solar, so that numbers do not end, and a battery that soon meets its floor.
    private static Run RunOf(LocalDate date)
    {
        TimeAxis axis = TimeAxis.OfDates(s_zone, date, date.PlusDays(1), 60);
        var load = Profile.Zero(axis).Map(_ => 1);
        var solar = Profile.Zero(axis).Map(_ => 1 / 3.0);
        Plant plant = Plant.OfBatteries(new Battery { Name = "b", CapacityKwh = 5, ChargeLimitKw = 3, DischargeLimitKw = 3, InverterKw = 3 }, 1);
        SetPoints wanted = new Strategy { Base = Steering.SelfUse }.Compile(plant, axis);
        return new Run(load, solar, null, plant, SiteLimits.None, wanted, startKwh: 5);
    }
}
