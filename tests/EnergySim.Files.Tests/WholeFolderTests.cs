namespace EnergySim.Files.Tests;

public sealed class WholeFolderTests : IDisposable
{
    private readonly TempFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    private static (string, Action<Stream>) Text(string path, string text) => (path, stream => stream.Write(System.Text.Encoding.UTF8.GetBytes(text)));

    [Fact]
    public void Write_NewFolder_HoldsTheFilesAndNothingElse()
    {
        string to = Path.Combine(_folder.Path, "out");
        WholeFolder.Write(to, [Text("a.txt", "1"), Text("charts/b.txt", "2")]);
        Assert.Equal("2", File.ReadAllText(Path.Combine(to, "charts", "b.txt")));
        Assert.Equal([to], Directory.GetFileSystemEntries(_folder.Path));
    }

    [Fact]
    public void Write_FolderThatStands_KeepsForeignFilesAndReplacesItsOwn()
    {
        string to = Path.Combine(_folder.Path, "out");
        WholeFolder.Write(to, [Text("a.txt", "1")]);
        File.WriteAllText(Path.Combine(to, "mine.txt"), "kept");
        WholeFolder.Write(to, [Text("a.txt", "2")]);
        Assert.Equal(("2", "kept"), (File.ReadAllText(Path.Combine(to, "a.txt")), File.ReadAllText(Path.Combine(to, "mine.txt"))));
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void Write_OneFileFails_LeavesWhatStood(bool stands)
    {
        string to = Path.Combine(_folder.Path, "out");
        if (stands) WholeFolder.Write(to, [Text("a.txt", "before")]);
        Assert.Throws<IOException>(() => WholeFolder.Write(to, [Text("a.txt", "after"), ("b.txt", _ => throw new IOException("full"))]));
        Assert.Equal(stands ? [to] : [], Directory.GetFileSystemEntries(_folder.Path));
        if (stands) Assert.Equal("before", File.ReadAllText(Path.Combine(to, "a.txt")));
    }

    [Fact]
    public void Write_NoSuchParentOrAFile_IsRefused()
    {
        Assert.Throws<DirectoryNotFoundException>(() => WholeFolder.Write(Path.Combine(_folder.Path, "no", "out"), [Text("a", "")]));
        Assert.Throws<IOException>(() => WholeFolder.Write(_folder.Write("file", ""), [Text("a", "")]));
    }

    [Fact]
    public void InputSet_FilesOfSeveralFolders_AreNamedBelowWhatHoldsThemAll()
    {
        string In(params string[] parts) => Path.Combine([_folder.Path, .. parts]);
        var set = new InputSet([new InputFile(In("homes", "home.yaml"), "1"), new InputFile(In("homes", "..", "tariffs", "plan.yaml"), "2")]);
        Assert.Equal(["homes/home.yaml", "tariffs/plan.yaml"], set.Digests.Select(d => d.Name));
    }

    [Fact]
    public void ReportFile_NotAReport_SaysSo()
    {
        Assert.Contains("not JSON", _folder.ProblemsOf(() => ReportFile.Read(_folder.Write("a.json", "{"))), StringComparison.Ordinal);
        Assert.Contains("no report of this program", _folder.ProblemsOf(() => ReportFile.Read(_folder.Write("b.json", "{\"a\": 1}"))), StringComparison.Ordinal);
    }
}
