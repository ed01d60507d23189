using System.Globalization;
using System.Text;
using EnergySim.Engine;
using NodaTime.Text;

namespace EnergySim.Files;

/// <summary>Writes ledgers as CSV: a row an interval, the columns of ENGINE §5 in their order.</summary>
public static class LedgerCsv
{
    private static readonly OffsetDateTimePattern s_local = OffsetDateTimePattern.CreateWithInvariantCulture("uuuu'-'MM'-'dd'T'HH':'mm':'sso<+HH:mm>");

    /// <summary>Writes a ledger, whole or not at all.</summary>
    /// <param name="path">Where it goes.</param>
    /// <param name="ledger">The ledger.</param>
    /// <exception cref="IOException">The folder is missing, full or closed to us.</exception>
    public static void Write(string path, Ledger ledger)
    {
        ArgumentNullException.ThrowIfNull(ledger);
        WholeFile.Write(path, stream => Write(stream, ledger));
    }

    /// <summary>Writes a ledger to a stream, which stays open.</summary>
    /// <param name="stream">Where it goes.</param>
    /// <param name="ledger">The ledger.</param>
    public static void Write(Stream stream, Ledger ledger)
    {
        ArgumentNullException.ThrowIfNull(stream);
        ArgumentNullException.ThrowIfNull(ledger);
        using var text = new StreamWriter(stream, new UTF8Encoding(false), 1 << 16, leaveOpen: true) { NewLine = "\n" };
        LedgerColumn[] columns = Enum.GetValues<LedgerColumn>();
        text.WriteLine($"start_utc,start_local,{string.Join(',', columns.Select(Ledger.NameOf))},limits");
        for (int i = 0; i < ledger.Axis.Count; i++)
        {
            text.Write(InstantPattern.General.Format(ledger.Axis.StartOf(i)));
            text.Write(',');
            text.Write(s_local.Format(ledger.Axis.OffsetStartOf(i)));
            foreach (LedgerColumn column in columns)
            {
                text.Write(',');
                text.Write(ledger[column][i].ToString("R", CultureInfo.InvariantCulture));
            }
            text.Write(',');
            text.WriteLine(ledger.LimitsOf(i));
        }
    }
}
