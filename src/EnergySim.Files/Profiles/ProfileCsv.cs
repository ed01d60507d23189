using System.Globalization;
using System.Text;
using EnergySim.Profiles;

namespace EnergySim.Files;

/// <summary>Writes profiles as the CSV of our own: <c>start</c> with its offset, and a column of mean kW a profile. <see cref="ProfileColumn.Ours"/> reads it.</summary>
public static class ProfileCsv
{
    /// <summary>Writes the file whole or not at all.</summary>
    /// <param name="path">Where it goes; the folder must exist.</param>
    /// <param name="columns">Headers and profiles, all on one axis.</param>
    public static void Write(string path, params IReadOnlyList<(string Header, Profile Profile)> columns)
    {
        ArgumentNullException.ThrowIfNull(columns);
        if (columns.Count == 0 || columns.Any(c => !c.Profile.Axis.IsSameAs(columns[0].Profile.Axis))) throw new ArgumentException("Profiles of a file are on one axis.", nameof(columns));
        WholeFile.Write(path, stream =>
        {
            using var writer = new StreamWriter(stream, new UTF8Encoding(false), 1 << 16, leaveOpen: true) { NewLine = "\n" };
            writer.Write("start");
            foreach ((string header, _) in columns)
            {
                writer.Write(',');
                writer.Write(header);
            }
            writer.WriteLine();
            for (int i = 0; i < columns[0].Profile.Axis.Count; i++)
            {
                writer.Write(columns[0].Profile.Axis.OffsetStartOf(i).ToString("uuuu-MM-dd'T'HH:mm:sso<+HH:mm>", CultureInfo.InvariantCulture));
                foreach ((_, Profile profile) in columns)
                {
                    writer.Write(',');
                    // A microwatt: finer than any meter, and short.
                    writer.Write(Math.Round(profile.Kw[i], 9).ToString(CultureInfo.InvariantCulture));
                }
                writer.WriteLine();
            }
        });
    }
}
