using System.Globalization;
using EnergySim.Profiles;
using EnergySim.Time;
using NodaTime;

namespace EnergySim.Files;

/// <summary>Reads profiles (CSV), strictly: what does not fit the options is a problem, never repaired in silence.</summary>
public static class ProfileFile
{
    /// <summary>Reads one column as a profile.</summary>
    /// <param name="path">The file.</param>
    /// <param name="column">How it is to be read.</param>
    /// <param name="zone">The home's zone; the profile's axis is in it.</param>
    /// <param name="wanted">The intervals that the profile must have; null = those that the file has.</param>
    /// <exception cref="ProblemsException">The file can not be read, or breaks a rule.</exception>
    public static ProfileReading Read(string path, ProfileColumn column, DateTimeZone zone, TimeAxis? wanted = null)
    {
        var problems = new ProblemList();
        ProfileReading? reading = Read(path, column, zone, wanted, problems);
        problems.ThrowIfAny();
        return reading!;
    }

    /// <summary>Reads one column; null, with problems added, when it does not fit.</summary>
    internal static ProfileReading? Read(string path, ProfileColumn column, DateTimeZone zone, TimeAxis? wanted, ProblemList problems)
    {
        ArgumentException.ThrowIfNullOrEmpty(path);
        ArgumentNullException.ThrowIfNull(column);
        ArgumentNullException.ThrowIfNull(zone);
        int before = problems.Count;
        if (FaultOf(column) is (string field, string rule))
        {
            problems.Add(new Problem { File = path, Field = field, Rule = rule });
            return null;
        }
        if (ProfileRows.Read(path, column, problems) is not ProfileRows rows) return null;
        ProfilePlacing? placing = rows.IsWhole ? ProfilePlacing.Of(rows, column, zone) : null;
        if (placing is null || problems.Count > before) return null;
        Profile? profile = Cut(path, placing, column, rows.HasYear, problems);
        if (profile is null) return null;
        if (wanted is not null && !profile.Axis.IsSameAs(wanted))
        {
            problems.Add(new Problem { File = path, Field = column.Column, Rule = $"the file has {Text(profile.Axis)}, wanted are {Text(wanted)}" });
            return null;
        }
        return new ProfileReading { File = path, Profile = profile, Rows = rows.Rows.Count, Repairs = placing.Repairs };
    }

    /// <summary>An axis in words.</summary>
    internal static string Text(TimeAxis axis) => string.Create(CultureInfo.InvariantCulture,
        $"{axis.Count:N0} intervals of {axis.StepMinutes} minutes from {axis.OffsetStartOf(0):uuuu-MM-dd HH:mm o<g>} ({axis.Zone.Id})");

    // Wrong options, as far as they can be told without the file.
    private static (string Field, string Rule)? FaultOf(ProfileColumn column)
    {
        if (column.Pattern is string pattern && StampPattern.FaultOf(pattern) is string fault) return ("pattern", $"\"{pattern}\" {fault}");
        if (column.Pattern is string { } p && !p.Contains("YYYY", StringComparison.Ordinal) && column.Year is null)
            return ("year", $"stamps written {p} carry no year; the year must be stated");
        if (column.StepMinutes is int step && !TimeAxis.AllowedStepMinutes.Contains(step))
            return ("stepMinutes", string.Create(CultureInfo.InvariantCulture, $"\"{step}\" is no length of an interval; they are 1, 5, 15, 30 or 60 minutes long"));
        if (column.ClockChange == ClockChange.SplitAndDrop && column.Clock is not ProfileClock.Local)
            return ("clockChange", "split-and-drop is for the local clock only; no other clock changes");
        return null;
    }

    // The calendar year that was asked for, out of a file whose stamps carry their year.
    private static Profile? Cut(string path, ProfilePlacing placing, ProfileColumn column, bool hasYear, ProblemList problems)
    {
        TimeAxis axis = placing.Axis;
        if (!hasYear || column.Year is not int year) return new Profile(axis, placing.Kw);
        TimeAxis part = TimeAxis.OfYear(axis.Zone, year, axis.StepMinutes);
        Duration lead = part.Start - axis.Start;
        int from = (int)(lead.TotalMinutes / axis.StepMinutes);
        if (lead < Duration.Zero || part.End > axis.End || !(axis.StartOf(from) == part.Start))
        {
            problems.Add(new Problem
            {
                File = path,
                Field = "year",
                Value = year.ToString(CultureInfo.InvariantCulture),
                Rule = $"is not covered: the file has {Text(axis)}",
            });
            return null;
        }
        int left = axis.Count - part.Count;
        if (left > 0) placing.Repairs.Add(string.Create(CultureInfo.InvariantCulture, $"{left:N0} intervals outside {year} were left out."));
        return new Profile(part, placing.Kw.AsSpan(from, part.Count));
    }
}
