using System.Globalization;
using EnergySim.Equipment;
using EnergySim.TestData;

namespace EnergySim.Tests.Equipment;

public class MotorTests
{
    private static List<string[]> Rows(string file) => [.. File.ReadAllLines(SharedData.Reference(file)).Skip(1).Where(l => l.Length > 0).Select(l => l.Split(','))];

    private static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);

    // "7-1/2", "1/3", "2".
    private static double Horsepower(string text)
    {
        double whole = 0;
        foreach (string part in text.Split('-'))
            whole += part.Split('/') is [string above, string below] ? Number(above) / Number(below) : Number(part);
        return whole;
    }

    [Fact]
    public void FullLoad_IsTheTableOfTheCode()
    {
        // NEC Table 430.248 (reference/nec_430_248.csv).
        List<string[]> rows = Rows("nec_430_248.csv");
        Assert.Equal(rows.Count, MotorTables.FullLoad.Count);
        for (int i = 0; i < rows.Count; i++)
        {
            Assert.Equal(Horsepower(rows[i][0]), MotorTables.FullLoad[i].Horsepower, 12);
            Assert.Equal([Number(rows[i][1]), Number(rows[i][3]), Number(rows[i][4])], MotorTables.FullLoad[i].Amps);
        }
    }

    [Fact]
    public void LockedRotor_IsTheTableOfTheCode()
    {
        // NEC Table 430.251(A), 2008 edition (reference/nec_430_251a.csv); at 115 and 230 V six times the full-load current.
        List<string[]> rows = Rows("nec_430_251a.csv");
        Assert.Equal(rows.Count, MotorTables.LockedRotor.Count);
        for (int i = 0; i < rows.Count; i++)
        {
            (double hp, double[] amps) = MotorTables.LockedRotor[i];
            Assert.Equal(Horsepower(rows[i][0]), hp, 12);
            Assert.Equal(rows[i].Skip(1).Select(Number), amps);
            double[] full = MotorTables.FullLoad.Single(r => r.Horsepower == hp).Amps;
            Assert.Equal(6 * full[0], amps[0], 9);
            Assert.Equal(6 * full[2], amps[2], 9);
        }
    }

    [Fact]
    public void CodeLetters_AreTheTableOfTheCode()
    {
        // NEC Table 430.7(B) (reference/nec_430_7b.csv).
        List<string[]> rows = Rows("nec_430_7b.csv");
        Assert.Equal(rows.Where(r => r[2].Length > 0).ToDictionary(r => r[0][0], r => Number(r[2])), MotorTables.CodeLetters.ToDictionary());
        Assert.Equal("V", Assert.Single(rows, r => r[2].Length == 0)[0]);
    }

    [Fact]
    public void Cooling_IsTheManualsTable()
    {
        // One installer's manual, 13 SEER (reference/ac_condenser_rla_lra.csv).
        Assert.Equal(Rows("ac_condenser_rla_lra.csv").Select(r => (Number(r[0]), Number(r[1]), Number(r[2]))), MotorTables.Cooling);
    }

    [Fact]
    public void LockedRotorAmps_OfACodeLetter_FollowTheFormula()
    {
        // 3 hp, code H: 7.09 kVA/hp → 21.27 kVA → 92.5 A at 230 V (REFERENCE §4.6).
        Motor motor = new() { Name = "pump", Horsepower = 3, CodeLetter = 'H' };
        Assert.Equal(92.478, motor.LockedRotorAmps!.Value, 3);
        Assert.Equal(17, motor.RunningAmps);
        Assert.Null((motor with { CodeLetter = 'V' }).LockedRotorAmps);
    }

    [Fact]
    public void SoftStarter_OfAThreeTonUnit_TakesSixtyToSeventyFivePercent()
    {
        // 3 tons: 79 A, with a soft starter 20–32 A (REFERENCE §4.6, a trade claim).
        Motor motor = new() { Name = "cooling", CoolingTons = 3 };
        Assert.Equal(79, motor.LockedRotorAmps);
        Assert.Equal(31.6, motor.SoftStartAmps!.Value, 9);
        Assert.Equal(19.75, (motor with { SoftStarterCut = 0.75 }).SoftStartAmps!.Value, 9);
        // Between two sizes the larger one counts; beyond the table nothing is known.
        Assert.Equal(112, (motor with { CoolingTons = 3.2 }).LockedRotorAmps);
        Assert.Null((motor with { CoolingTons = 6 }).LockedRotorAmps);
    }

    [Fact]
    public void Nameplate_ComesFirst()
    {
        Motor motor = new() { Name = "well pump", Horsepower = 1, CodeLetter = 'J', NameplateLockedRotorAmps = 41, NameplateRunningAmps = 7.5 };
        Assert.Equal(41, motor.LockedRotorAmps);
        Assert.Equal(7.5, motor.RunningAmps);
        Assert.Equal(96, new Motor { Name = "sump pump", Horsepower = 0.9, Volts = 115 }.LockedRotorAmps);
        Assert.Null(new Motor { Name = "unknown" }.LockedRotorAmps);
    }
}
