#:project ../src/EnergySim.Files
#:property RestoreLockedMode=false
#:property RestorePackagesWithLockFile=false
#:property PublishAot=false

//# # One battery against two, for a street of homes
//# An invented street: the demo home with its use of energy scaled, under two invented plans. Every figure is a computation on invented
//# data, not a promise.

using EnergySim.Files;
using EnergySim.Studies;
using EnergySim.Studies.Sweeps;

//# The homes of the street are variants of one file: what each uses, as a share of the demo home's load.

string plan = Path.Combine(Path.GetTempPath(), $"street-{Environment.ProcessId}.yaml");
string root = Environment.GetEnvironmentVariable("ENERGYSIM_ROOT") ?? Directory.GetCurrentDirectory();
File.WriteAllText(plan, $"""
    sweep: A street
    homes: {root}/profiles/demo-home.yaml
    tariffs: [{root}/tariffs/marrow-creek-evening-peak.yaml, {root}/tariffs/marrow-creek-flat.yaml]
    inputs:
      - input: stepMinutes
        list: 60
      - input: load.factor
        name: load
        list: [0.4, 0.6, 0.8, 1, 1.25, 1.5, 2]
    outputs: [annualBill, annualSaving, addedSaving]
    """);
SweepReading street = SweepFile.Read(plan);
SweepTable table = SweepTable.Of(street.Study(), street.Plan, street.Homes.OwnValue, Environment.ProcessorCount);
File.Delete(plan);

//# What one battery saves a year, and what a second one adds, home by home.

for (int place = 0; place < table.Places; place++)
{
    Console.WriteLine(table.PlaceName(place));
    int one = table.Columns.ToList().FindIndex(c => c.Name == "one-battery.annualSaving");
    int two = table.Columns.ToList().FindIndex(c => c.Name == "two-batteries.addedSaving");
    for (int home = 0; home < table.Variants.PerHome; home++)
        Console.WriteLine(FormattableString.Invariant($"  load × {table.Input(1, place, home):0.00}: one saves {table.Output(one, place)[home],7:0.00}, the second adds {table.Output(two, place)[home],7:0.00}"));
}

//# A check: the home with its own load is the comparison of the demo home, in steps of an hour.

Home own = HomeFile.Read(Path.Combine(root, "profiles", "demo-home.yaml")).Home;
Home hourly = own with { Load = own.Load.Resampled(60), Solar = own.Solar! with { Profile = own.Solar.Profile.Resampled(60) } };
decimal saving = ComparisonStudy.Of(hourly).Columns[1].AnnualSaving;
double swept = table.Output(table.Columns.ToList().FindIndex(c => c.Name == "one-battery.annualSaving"), 0)[3];
Console.WriteLine(FormattableString.Invariant($"one battery saves {saving} in the comparison, {swept} in the sweep"));
if ((double)saving != swept) throw new InvalidOperationException("The sweep and the comparison differ.");
