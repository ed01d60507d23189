using System.Globalization;
using System.Text;
using CsCheck;
using EnergySim.TestData;
using EnergySim.Time;
using NodaTime;

namespace EnergySim.Files.Tests.Profiles;

/// <summary>Any series, written as some meter or program would write it, reads back as it was.</summary>
public class ProfileRoundTripTests
{
    private static readonly string[] s_zones =
        ["America/New_York", "America/St_Johns", "Europe/Berlin", "Europe/Dublin", "Australia/Sydney", "Australia/Lord_Howe", "Asia/Kathmandu", "America/Phoenix", "UTC"];

    private sealed record Case(DateTimeZone Zone, int Year, int Step, string Clock, StampMark Mark, ProfileUnit Unit, int Seed);

    private static readonly Gen<Case> s_cases =
        from zone in Gen.Int[0, s_zones.Length - 1]
        from year in Gen.Int[2008, 2030]
        from step in Gen.Int[0, 2]
        from clock in Gen.Int[0, 5]
        from mark in Gen.Bool
        from unit in Gen.Bool
        from seed in Gen.Int[0, 1000]
        select new Case(
            DateTimeZoneProviders.Tzdb[s_zones[zone]], year, step switch { 0 => 60, 1 => 30, _ => 15 },
            clock switch { 0 => "local", 1 => "standard", 2 => "utc", 3 => "fixed", 4 => "offset", _ => "pattern" },
            mark ? StampMark.Start : StampMark.End, unit ? ProfileUnit.KW : ProfileUnit.KWh, seed);

    [Fact]
    public void Read_AnySeriesInAnyConvention_ComesBack()
    {
        using var folder = new TempFolder();
        FixedSeed.Check(s_cases, 60, c => ComesBack(folder, c));
    }

    private static void ComesBack(TempFolder folder, Case c)
    {
        TimeAxis axis = c.Clock == "standard"
            ? new TimeAxis(c.Zone, StandardMidnight(c.Zone, c.Year), c.Step, 365 * 1440 / c.Step)
            : TimeAxis.OfYear(c.Zone, c.Year, c.Step);
        double[] kw = [.. Enumerable.Range(0, axis.Count).Select(i => ((i * 7919L) + c.Seed) % 4001 / 1000.0)];
        var text = new StringBuilder("start,other,load\r\n");
        for (int i = 0; i < axis.Count; i++)
        {
            Instant at = axis.StartOf(c.Mark == StampMark.Start ? i : i + 1);
            double value = c.Unit == ProfileUnit.KW ? kw[i] : kw[i] * axis.StepHours;
            text.Append(CultureInfo.InvariantCulture, $"{Stamp(c, at)},x,{value:R}\r\n");
        }
        var column = new ProfileColumn
        {
            Column = "load",
            Unit = c.Unit,
            Stamp = c.Mark,
            Clock = c.Clock switch
            {
                "standard" => new ProfileClock.Standard(),
                "utc" => new ProfileClock.Fixed(Offset.Zero),
                "fixed" => new ProfileClock.Fixed(Offset.FromHoursAndMinutes(5, 30)),
                "offset" => new ProfileClock.InStamp(),
                _ => new ProfileClock.Local(),
            },
            Pattern = c.Clock == "pattern" ? "D.M.YYYY HH:mm" : null,
            StepMinutes = c.Zone.Id == "UTC" ? c.Step : null,
        };
        ProfileReading reading = ProfileFile.Read(folder.Write("series.csv", text.ToString()), column, c.Zone, axis);
        Assert.Equal(axis.Count, reading.Rows);
        for (int i = 0; i < kw.Length; i++) Assert.Equal(kw[i], reading.Profile.Kw[i], 1e-12);
    }

    private static Instant StandardMidnight(DateTimeZone zone, int year)
    {
        Instant around = Instant.FromUtc(year, 1, 1, 0, 0);
        return around - Duration.FromSeconds(zone.GetZoneInterval(around).StandardOffset.Seconds);
    }

    private static string Stamp(Case c, Instant at)
    {
        if (c.Clock == "offset") return at.InZone(c.Zone).ToOffsetDateTime().ToString("uuuu-MM-dd'T'HH:mm:sso<G>", CultureInfo.InvariantCulture);
        Offset offset = c.Clock switch
        {
            "utc" => Offset.Zero,
            "fixed" => Offset.FromHoursAndMinutes(5, 30),
            "standard" => c.Zone.GetZoneInterval(Instant.FromUtc(c.Year, 1, 1, 0, 0)).StandardOffset,
            _ => c.Zone.GetUtcOffset(at),
        };
        LocalDateTime local = at.WithOffset(offset).LocalDateTime;
        return local.ToString(c.Clock == "pattern" ? "d.M.uuuu HH:mm" : "uuuu-MM-dd HH:mm", CultureInfo.InvariantCulture);
    }
}
