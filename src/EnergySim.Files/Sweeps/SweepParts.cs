using System.Globalization;
using System.Security.Cryptography;
using System.Text;

namespace EnergySim.Files;

/// <summary>
/// The parts of a sweep that are done, each a file written whole: a line that says of which plan and which rows it is and what its content
/// hashes to, then the rows. What does not fit its line is not a part.
/// </summary>
internal sealed class SweepParts
{
    private readonly string _folder, _planHash;
    private readonly int _rows, _rowsPerPart;

    /// <param name="folder">Where the parts are.</param>
    /// <param name="planHash">Hash of the plan.</param>
    /// <param name="rows">Number of rows of the sweep.</param>
    /// <param name="rowsPerPart">Rows a part, but for the last.</param>
    public SweepParts(string folder, string planHash, int rows, int rowsPerPart) => (_folder, _planHash, _rows, _rowsPerPart) = (folder, planHash, rows, rowsPerPart);

    /// <summary>The folder.</summary>
    public string Folder => _folder;

    /// <summary>How many parts there are to be.</summary>
    public int Count => (_rows + _rowsPerPart - 1) / _rowsPerPart;

    /// <summary>The rows of a part.</summary>
    public (int From, int Count) RowsOf(int part) => (part * _rowsPerPart, Math.Min(_rowsPerPart, _rows - (part * _rowsPerPart)));

    /// <summary>Writes a part.</summary>
    public void Write(int part, string rows)
    {
        Directory.CreateDirectory(_folder);
        byte[] content = Encoding.UTF8.GetBytes(rows);
        WholeFile.Write(FileOf(part), stream =>
        {
            stream.Write(Encoding.UTF8.GetBytes(HeadOf(part, content) + "\n"));
            stream.Write(content);
        });
    }

    /// <summary>True when a part is there and whole.</summary>
    /// <exception cref="ProblemsException">It is there, and of another plan.</exception>
    public bool Has(int part) => Read(part) is not null;

    /// <summary>The rows of a part as they were written; null where it is not there, or not whole.</summary>
    /// <exception cref="ProblemsException">It is there, and of another plan.</exception>
    public ReadOnlyMemory<byte>? Read(int part)
    {
        string file = FileOf(part);
        if (!File.Exists(file)) return null;
        byte[] all = File.ReadAllBytes(file);
        int end = Array.IndexOf(all, (byte)'\n');
        if (end < 0) return null;
        string head = Encoding.UTF8.GetString(all, 0, end);
        if (head == HeadOf(part, all.AsSpan(end + 1))) return all.AsMemory(end + 1);
        // A part of this plan whose content was damaged is made anew; one of another plan is somebody's work.
        if (head.StartsWith(PlanWords, StringComparison.Ordinal) || !head.StartsWith("# plan ", StringComparison.Ordinal)) return null;
        throw new ProblemsException([new Problem { File = file, Line = 1, Rule = "this part is of another plan, or of the same plan before a file of it changed; name another output, or remove the folder" }]);
    }

    /// <summary>Parts that are missing, in order.</summary>
    public IReadOnlyList<int> Missing() => [.. Enumerable.Range(0, Count).Where(p => !Has(p))];

    /// <summary>Removes the parts, and what killed runs left half-written beside them.</summary>
    public void Remove()
    {
        for (int part = 0; part < Count; part++) File.Delete(FileOf(part));
        if (!Directory.Exists(_folder)) return;
        foreach (string left in Directory.GetFiles(_folder, ".part-*.part")) File.Delete(left);
        if (!Directory.EnumerateFileSystemEntries(_folder).Any()) Directory.Delete(_folder);
    }

    private string PlanWords => $"# plan {_planHash},";

    private string HeadOf(int part, ReadOnlySpan<byte> content)
    {
        (int from, int count) = RowsOf(part);
        return string.Create(CultureInfo.InvariantCulture, $"{PlanWords} rows {from + 1L} to {(long)from + count} of {_rows}, content {Convert.ToHexStringLower(SHA256.HashData(content))}");
    }

    private string FileOf(int part) => Path.Combine(_folder, string.Create(CultureInfo.InvariantCulture, $"part-{part + 1:000000}.csv"));
}
