#:property PublishAot=false
#:property RestorePackagesWithLockFile=false
#:property RestoreLockedMode=false

// Makes the demo year: an invented home's load and an invented roof's DC solar, 2025, at 15 minutes.
//   dotnet run profiles/make-demo-year.cs               writes demo-load.csv, demo-solar.csv and demo-weather.csv beside this file, prints the figures of demo-note.md
//   dotnet run profiles/make-demo-year.cs -- --check    writes nothing; exits 1 if a file differs from what would be written, or the note's figures do
// Nothing measured stands behind it. Where no source is named, a number is an assumption of ours; formulas were written down from memory.
// Time runs in minutes since 2025-01-01T00:00:00-07:00. Powers are rounded to whole watts: sums are exact, and a last bit of a sine that differs by machine does not show.
using System.Globalization;
using System.Text;

var folder = (string)AppContext.GetData("EntryPointFileDirectoryPath")!;
var weather = new Weather();
int[] solarW = Roof.Watts(weather);
int[] loadW = new House(weather, solarW).Watts();
(string Name, string Text)[] files =
[
    ("demo-load.csv", Table("load_kw", loadW)),
    ("demo-solar.csv", Table("solar_dc_kw", solarW)),
    ("demo-weather.csv", WeatherTable(weather)),
];
if (args is ["--check"])
{
    int differing = 0;
    foreach ((string name, string text) in files)
    {
        string path = Path.Combine(folder, name);
        if (File.Exists(path) && File.ReadAllBytes(path).AsSpan().SequenceEqual(Encoding.UTF8.GetBytes(text))) continue;
        Console.Error.WriteLine($"{name} is not what this program writes.");
        differing++;
    }
    string note = Path.Combine(folder, "demo-note.md");
    if (!File.Exists(note) || !File.ReadAllText(note).Contains(Figures(weather, loadW, solarW), StringComparison.Ordinal))
    {
        Console.Error.WriteLine("demo-note.md does not hold the figures that this program prints.");
        differing++;
    }
    return differing > 0 ? 1 : 0;
}
if (args.Length > 0)
{
    Console.Error.WriteLine("The only argument is --check.");
    return 2;
}
foreach ((string name, string text) in files)
{
    string path = Path.Combine(folder, name);
    File.WriteAllBytes(path + ".part", Encoding.UTF8.GetBytes(text));
    File.Move(path + ".part", path, overwrite: true);
}
Console.Write(Figures(weather, loadW, solarW));
return 0;

static string Table(string column, int[] watts)
{
    var text = new StringBuilder("start,").Append(column).Append('\n');
    for (int i = 0; i < watts.Length; i++) text.Append(Clock.Stamp(i * 15)).Append(',').Append(Thousandths(watts[i])).Append('\n');
    return text.ToString();
}

// The same sky by the hour, on standard time: means over the hour that each stamp begins.
static string WeatherTable(Weather weather)
{
    var text = new StringBuilder("start,global_w_m2,direct_w_m2,diffuse_w_m2,air_c,wind_m_s\n");
    var chance = new Chance(9);
    double drift = 0;
    for (int hour = 0; hour < Clock.Days * 24; hour++)
    {
        double global = 0, direct = 0, diffuse = 0, air = 0;
        for (int quarter = 0; quarter < 4; quarter++)
        {
            int i = (hour * 4) + quarter;
            (double beam, double sky, double zenithCosine) = Roof.Sky(weather, i);
            global += (beam + sky) / 4;
            direct += beam / Math.Max(zenithCosine, 0.02) / 4;
            diffuse += sky / 4;
            air += weather.AirC((i * 15) + 7) / 4;
        }
        // Wind of our own: 3.4 m/s on average, more in the afternoon, drifting from hour to hour.
        drift = (0.9 * drift) + (0.5 * chance.Normal());
        double wind = Math.Max(0.2, 3.4 + drift - (1.2 * Math.Cos(2 * Math.PI * (hour - 3) / 24)));
        text.Append(new DateTime(2025, 1, 1).AddHours(hour).ToString("yyyy-MM-ddTHH:mm", CultureInfo.InvariantCulture));
        foreach (double watts in (ReadOnlySpan<double>)[global, direct, diffuse]) text.Append(',').Append((int)Math.Floor(watts + 0.5));
        foreach (double value in (ReadOnlySpan<double>)[air, wind]) text.Append(CultureInfo.InvariantCulture, $",{Math.Floor((value * 10) + 0.5) / 10:0.0}");
        text.Append('\n');
    }
    return text.ToString();
}

static string Thousandths(int value) => string.Create(CultureInfo.InvariantCulture, $"{value / 1000}.{value % 1000:000}");

static string Figures(Weather weather, int[] loadW, int[] solarW)
{
    var text = new StringBuilder("| 2025 | load kWh | highest load kW | solar DC kWh | highest solar kW | days clear / partly / overcast |\n|---|---|---|---|---|---|\n");
    int[] all = [.. Enumerable.Range(0, loadW.Length)];
    foreach (var month in all.GroupBy(i => Clock.Date(Clock.Local(i * 15) / 1440).Month)) Row(month.Key.ToString("00", CultureInfo.InvariantCulture), [.. month]);
    Row("year", all);
    int run = 0, longest = 0, last = 0;
    for (int day = 0; day < Clock.Days; day++)
    {
        run = weather.Days[day] == Sky.Overcast ? run + 1 : 0;
        if (run > longest) (longest, last) = (run, day);
    }
    return text.Append(CultureInfo.InvariantCulture, $"Longest run of overcast days: {longest}, {Clock.Date(last - longest + 1):yyyy-MM-dd} to {Clock.Date(last):yyyy-MM-dd}.\n").ToString();

    void Row(string name, int[] at)
    {
        int Count(Sky sky) => at.Where(i => i % 96 == 48).Count(i => weather.Days[i / 96] == sky);
        text.Append(CultureInfo.InvariantCulture, $"| {name} | {at.Sum(i => (long)loadW[i]) / 4000.0:0.0} | {Thousandths(at.Max(i => loadW[i]))} | {at.Sum(i => (long)solarW[i]) / 4000.0:0.0} | {Thousandths(at.Max(i => solarW[i]))} | {Count(Sky.Clear)} / {Count(Sky.Partly)} / {Count(Sky.Overcast)} |\n");
    }
}

/// <summary>SplitMix64 (Steele, Lea, Flood: Fast Splittable Pseudorandom Number Generators, 2014). A stream a purpose, so that one can change alone.</summary>
internal sealed class Chance(ulong stream)
{
    public const ulong Seed = 10; // chosen; the note says for what
    private ulong _state = Seed + (stream << 32);

    /// <summary>Uniform in [0, 1).</summary>
    public double Next()
    {
        ulong z = _state += 0x9E3779B97F4A7C15;
        z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9;
        z = (z ^ (z >> 27)) * 0x94D049BB133111EB;
        return ((z ^ (z >> 31)) >> 11) * (1.0 / (1UL << 53));
    }

    public double Between(double low, double high) => low + ((high - low) * Next());
    public bool Hits(double share) => Next() < share;

    /// <summary>Near enough a standard normal: twelve uniforms less six, which needs no logarithm.</summary>
    public double Normal()
    {
        double sum = -6;
        for (int i = 0; i < 12; i++) sum += Next();
        return sum;
    }
}

/// <summary>The wall clock of America/Denver in 2025: forward on 9 March, back on 2 November, both at 02:00. By rule, so that no zone data are needed.</summary>
internal static class Clock
{
    public const int Days = 365, Minutes = Days * 1440, Intervals = Minutes / 15;
    private const int Forward = (67 * 1440) + 120, Back = (305 * 1440) + 60;

    public static bool IsSummerTime(int minute) => minute is >= Forward and < Back;
    public static int Local(int minute) => IsSummerTime(minute) ? minute + 60 : minute;
    public static int OfLocal(int day, double hour)
    {
        int wall = (day * 1440) + (int)(hour * 60);
        return wall is >= Forward and < Back + 60 ? wall - 60 : wall;
    }

    public static DateOnly Date(int day) => new DateOnly(2025, 1, 1).AddDays(day);
    public static bool IsWeekend(int day) => Date(day).DayOfWeek is DayOfWeek.Saturday or DayOfWeek.Sunday;
    public static string Stamp(int minute) => new DateTime(2025, 1, 1).AddMinutes(Local(minute)).ToString("yyyy-MM-ddTHH:mm:ss", CultureInfo.InvariantCulture) + (IsSummerTime(minute) ? "-06:00" : "-07:00");
}

internal enum Sky { Clear, Partly, Overcast }

/// <summary>An invented course of sky and air temperature: a first-order Markov chain by day, hot spells, and drift within the day.</summary>
internal sealed class Weather
{
    /// <summary>The sky of each day.</summary>
    public Sky[] Days { get; } = new Sky[Clock.Days];

    /// <summary>Share of the clear-sky beam that comes through in each interval.</summary>
    public double[] BeamShare { get; } = new double[Clock.Intervals];
    private readonly double[] _meanC = new double[Clock.Days], _swingC = new double[Clock.Days];

    public Weather()
    {
        var sky = new Chance(1);
        var heat = new Chance(2);
        double drift = 0;
        for (int day = 0, hotDaysLeft = 0; day < Clock.Days; day++)
        {
            double summer = Summer(day);
            // Chance to stay clear or partly, by yesterday's sky; winter's overcast lasts, summer's clears away.
            (double clear, double partly) = (day == 0 ? Sky.Clear : Days[day - 1]) switch
            {
                Sky.Clear => (0.62, 0.29 + (0.05 * summer)),
                Sky.Partly => (0.40 + (0.04 * summer), 0.40 + (0.06 * summer)),
                _ => (0.14 + (0.22 * summer), 0.22 + (0.28 * summer)),
            };
            double draw = sky.Next();
            Days[day] = draw < clear ? Sky.Clear : draw < clear + partly ? Sky.Partly : Sky.Overcast;
            if (hotDaysLeft > 0) hotDaysLeft--;
            else if (day is > 160 and < 240 && heat.Hits(0.07)) hotDaysLeft = 4 + (int)heat.Between(0, 5);
            drift = (0.72 * drift) + (1.9 * heat.Normal());
            _meanC[day] = -2.5 + (25.5 * summer) + drift + (hotDaysLeft > 0 ? 4.5 : 0) - (Days[day] == Sky.Overcast ? 3 : 0);
            _swingC[day] = Days[day] switch { Sky.Clear => 8, Sky.Partly => 6.5, _ => 3 };
            ShadeDay(day, summer, sky);
        }
    }

    /// <summary>0 in mid-January, 1 in mid-July.</summary>
    public static double Summer(int day) => 0.5 - (0.5 * Math.Cos(2 * Math.PI * (day - 17) / 365));

    /// <summary>Air temperature, °C: warmest about 15:30 standard time; between one noon and the next the day's figures are joined by a line.</summary>
    public double AirC(int minute)
    {
        double at = Math.Clamp((minute - 720) / 1440.0, 0, Clock.Days - 1.001), share = at - (int)at;
        double mean = _meanC[(int)at] + (share * (_meanC[(int)at + 1] - _meanC[(int)at]));
        double swing = _swingC[(int)at] + (share * (_swingC[(int)at + 1] - _swingC[(int)at]));
        return mean + (swing * Math.Cos(2 * Math.PI * (minute - 930) / 1440));
    }

    private void ShadeDay(int day, double summer, Chance sky)
    {
        (double level, double noise) = Days[day] switch
        {
            Sky.Clear => (sky.Between(0.94, 1.0), 0.015),
            Sky.Partly => (sky.Between(0.5, 0.8), 0.17),
            _ => (sky.Between(0.0, 0.12), 0.05),
        };
        bool buildsUp = summer > 0.6 && Days[day] != Sky.Overcast && sky.Hits(Days[day] == Sky.Partly ? 0.7 : 0.25);
        double cloudHour = sky.Between(12.5, 15.5), clearHour = cloudHour + sky.Between(1.5, 4), drift = 0;
        for (int i = 0; i < 96; i++)
        {
            double hour = i / 4.0;
            drift = (0.7 * drift) + (noise * sky.Normal());
            double share = level + drift;
            if (buildsUp) share = hour < cloudHour ? share + 0.15 : hour < clearHour ? share * 0.35 : share;
            BeamShare[(day * 96) + i] = Math.Clamp(share, 0, 1);
        }
    }
}

/// <summary>DC power of two planes under the invented sky, before any inverter.</summary>
internal static class Roof
{
    private const double Latitude = 39.9, Longitude = -104.6, ZoneMeridian = -105, Tilt = 25, PlaneKw = 4.1, OtherLosses = 0.86, ClearDiffuseShare = 0.13, LowestCosine = 0.02;
    private const double Degree = Math.PI / 180;

    /// <summary>Declination, radians (Cooper: The absorption of radiation in solar stills, Solar Energy 12, 1969).</summary>
    private static double Declination(int day) => 23.45 * Degree * Math.Sin(2 * Math.PI * (284 + day + 1) / 365);

    /// <summary>Hours from sunrise to noon (Duffie, Beckman: Solar Engineering of Thermal Processes, sunset hour angle).</summary>
    public static double HalfDayHours(int day) => Math.Acos(-Math.Tan(Latitude * Degree) * Math.Tan(Declination(day))) / Degree / 15;

    /// <summary>Beam and diffuse on the level, W/m², and the cosine of the zenith in the middle of a quarter-hour; nothing while the sun is below about one degree.</summary>
    public static (double Beam, double Diffuse, double ZenithCosine) Sky(Weather weather, int i)
    {
        (double declination, double hourAngle) = Sun(i);
        double zenithCosine = Facing(declination, hourAngle, 0, 0);
        if (zenithCosine < LowestCosine) return (0, 0, zenithCosine);
        // Global on the level under a clear sky, W/m² (Haurwitz: Insolation in relation to cloudiness and cloud density, J. Meteorology 2, 1945).
        double clear = 1098 * zenithCosine * Math.Exp(-0.059 / zenithCosine);
        double shade = 1 - weather.BeamShare[i];
        return (clear * (1 - ClearDiffuseShare) * (1 - shade), clear * (ClearDiffuseShare + (0.30 * shade * (1 - (0.55 * shade * shade)))), zenithCosine);
    }

    /// <summary>Declination and hour angle in the middle of a quarter-hour, radians.</summary>
    private static (double Declination, double HourAngle) Sun(int i)
    {
        double minute = (i * 15) + 7.5;
        int day = i / 96;
        // Equation of time, minutes (Masters: Renewable and Efficient Electric Power Systems, 2004, ch. 7).
        double b = 2 * Math.PI * (day + 1 - 81) / 364;
        double solarMinute = (minute % 1440) + (4 * (Longitude - ZoneMeridian)) + (9.87 * Math.Sin(2 * b)) - (7.53 * Math.Cos(b)) - (1.5 * Math.Sin(b));
        return (Declination(day), ((solarMinute / 4) - 180) * Degree);
    }

    public static int[] Watts(Weather weather)
    {
        var watts = new int[Clock.Intervals];
        for (int i = 0; i < watts.Length; i++)
        {
            (double beam, double diffuse, double zenithCosine) = Sky(weather, i);
            if (zenithCosine < LowestCosine) continue;
            (double declination, double hourAngle) = Sun(i);
            double total = 0;
            foreach (double azimuth in (ReadOnlySpan<double>)[-45, 45])
            {
                // Even sky and ground of albedo 0.2 (Liu, Jordan 1963); beam at a low sun is limited.
                double onPlane = (beam * Math.Max(0, Facing(declination, hourAngle, Tilt, azimuth)) / Math.Max(zenithCosine, 0.07))
                    + (diffuse * (1 + Math.Cos(Tilt * Degree)) / 2) + (0.2 * (beam + diffuse) * (1 - Math.Cos(Tilt * Degree)) / 2);
                // Cells stand 0.03 K above the air for each W/m² (the form of Ross, 1976) and lose 0.35 % a kelvin.
                double cellC = weather.AirC((i * 15) + 7) + (0.03 * onPlane);
                total += PlaneKw * onPlane * OtherLosses * (1 - (0.0035 * (cellC - 25)));
            }
            watts[i] = (int)Math.Floor(total + 0.5);
        }
        return watts;
    }

    /// <summary>Cosine of the sun's angle to a plane (Duffie, Beckman, eq. 1.6.2); azimuth from south, west positive; degrees.</summary>
    private static double Facing(double d, double w, double tilt, double azimuth)
    {
        double f = Latitude * Degree, b = tilt * Degree, g = azimuth * Degree;
        return (Math.Sin(d) * Math.Sin(f) * Math.Cos(b)) - (Math.Sin(d) * Math.Cos(f) * Math.Sin(b) * Math.Cos(g))
            + (Math.Cos(d) * Math.Cos(f) * Math.Cos(b) * Math.Cos(w)) + (Math.Cos(d) * Math.Sin(f) * Math.Sin(b) * Math.Cos(g) * Math.Cos(w))
            + (Math.Cos(d) * Math.Sin(b) * Math.Sin(g) * Math.Sin(w));
    }
}

/// <summary>An invented household: what always runs, what the weather runs, and what people do by day of the week.</summary>
internal sealed class House(Weather weather, int[] solarW)
{
    private readonly double[] _kw = new double[Clock.Minutes];

    public int[] Watts()
    {
        RunByItself();
        var habits = new Chance(3);
        for (int day = 0; day < Clock.Days; day++)
        {
            // One week away in March: the base load can be seen alone.
            if (day is >= 73 and < 80) continue;
            Mornings(day, habits);
            Evenings(day, habits);
            Chores(day, habits);
        }
        var vehicle = new Chance(4);
        for (int day = 0; day < Clock.Days; day++)
        {
            if (day is >= 73 and < 80 || !vehicle.Hits(Clock.IsWeekend(day) ? 0.3 : 0.55)) continue;
            // 16 A at 240 V. Its timer starts it at 23:00; now and then somebody starts it on coming home.
            bool atOnce = vehicle.Hits(0.15);
            Run(day, atOnce ? vehicle.Between(17.5, 19) : 23, vehicle.Between(80, 240), 3.84);
        }
        var watts = new int[Clock.Intervals];
        for (int i = 0; i < watts.Length; i++)
        {
            double sum = 0;
            foreach (double kw in _kw.AsSpan(i * 15, 15)) sum += kw;
            watts[i] = (int)Math.Floor((sum * 1000 / 15) + 0.5);
        }
        return watts;
    }

    private void RunByItself()
    {
        double insideC = 20;
        bool cooling = false;
        for (int m = 0; m < Clock.Minutes; m++)
        {
            double airC = weather.AirC(m), sun = solarW[m / 15] / 7000.0, localHour = Clock.Local(m) % 1440 / 60.0;
            bool nobodyIn = localHour is > 8 and < 15.5 && !Clock.IsWeekend(Clock.Local(m) / 1440);
            double standby = 0.25, refrigerator = m % 47 < 18 + (airC > 20 ? 3 : 0) ? 0.15 : 0, freezer = m % 61 < 20 ? 0.11 : 0;
            // The furnace burns gas; its fan runs a share of each 24 minutes that grows with the cold.
            double fan = m % 24 < 24 * Math.Clamp((15 - airC) / 45, 0, 0.8) ? 0.42 : 0;
            double setC = nobodyIn ? 25.6 : 24;
            cooling = insideC > setC + 0.5 || (cooling && insideC > setC - 0.4);
            insideC += (((airC - insideC) / 13) + 0.28 + (1.25 * sun) - (cooling ? 3.0 : 0)) / 60;
            insideC = Math.Max(insideC, 20);
            _kw[m] += standby + refrigerator + freezer + fan + (cooling ? 2.9 + (0.025 * (airC - 25)) : 0);
        }
    }

    private void Mornings(int day, Chance habits)
    {
        bool weekend = Clock.IsWeekend(day);
        double wake = weekend ? habits.Between(7.2, 8.6) : habits.Between(6.0, 6.5);
        Run(day, wake + 0.1, habits.Between(6, 11), 1.6);
        Run(day, wake + habits.Between(0.3, 0.7), habits.Between(10, 18), 1.3);
        Run(day, wake, 100, 0.13);
        // Hot water by a small heat pump: after the showers, and an hour or so in the evening.
        Run(day, wake + 0.4, habits.Between(110, 170), 0.5);
        Run(day, habits.Between(19.5, 21), habits.Between(60, 120), 0.5);
        double dawn = 12 - Roof.HalfDayHours(day) + (Clock.IsSummerTime(day * 1440) ? 1 : 0);
        if (dawn > wake) Run(day, wake, (dawn - wake + 0.3) * 60, 0.22);
        double coldC = weather.AirC(Clock.OfLocal(day, 6));
        if (coldC < -1) Cycle(day, wake - 0.4, habits.Between(90, 140), 2.5, 11, coldC < -8 ? 2 : 6);
        if (!weekend && habits.Hits(0.4)) Run(day, 8.5, 480, 0.16);
    }

    private void Evenings(int day, Chance habits)
    {
        bool weekend = Clock.IsWeekend(day);
        double home = weekend ? 9.5 : habits.Between(16.6, 17.6), bed = habits.Between(22.2, 23.2);
        Run(day, home, (bed - home) * 60, weekend ? 0.19 : 0.26);
        double dusk = 12 + Roof.HalfDayHours(day) + (Clock.IsSummerTime(day * 1440) ? 1 : 0) - 0.4;
        if (dusk < bed) Run(day, dusk, (bed - dusk) * 60, 0.30);
        double dinner = habits.Between(17.5, 18.7);
        if (habits.Hits(0.88)) Run(day, dinner, habits.Between(20, 35), 1.5);
        if (habits.Hits(0.6)) Cycle(day, dinner - 0.3, habits.Between(40, 70), 2.4, 7, 4);
        if (habits.Hits(0.55)) Cycle(day, habits.Between(19.3, 20.6), 75, 1.5, 18, 22);
        if (weather.AirC(Clock.OfLocal(day, 19)) < 0) Cycle(day, 18.6, habits.Between(100, 190), 1.5, 10, 6);
    }

    private void Chores(int day, Chance habits)
    {
        bool weekend = Clock.IsWeekend(day);
        if (habits.Hits(weekend ? 0.75 : 0.26))
        {
            double start = weekend ? habits.Between(9.5, 15.5) : habits.Between(16.8, 18.5);
            Run(day, start, 38, 0.4);
            Cycle(day, start + 0.7, habits.Between(40, 60), 4.6, 9, 3);
        }
        if (weekend && habits.Hits(0.6)) Run(day, habits.Between(11.7, 13), habits.Between(15, 30), 1.8);
        for (int i = weekend ? 8 : 4; i > 0; i--)
            Run(day, weekend ? habits.Between(8.5, 22) : habits.Between(16.8, 22), habits.Between(4, 35), habits.Between(0.1, 0.9));
    }

    private void Run(int day, double hour, double minutes, double kw) => Cycle(day, hour, minutes, kw, 1, 0);

    /// <summary>A device that its own thermostat switches: so many minutes on, so many off.</summary>
    private void Cycle(int day, double hour, double minutes, double kw, int on, int off)
    {
        int start = Clock.OfLocal(day, hour);
        for (int m = 0; m < (int)minutes && start + m < _kw.Length; m++)
            if (m % (on + off) < on) _kw[start + m] += kw;
    }
}
