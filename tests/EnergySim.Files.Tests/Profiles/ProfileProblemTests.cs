using EnergySim.Time;
using NodaTime;

namespace EnergySim.Files.Tests.Profiles;

/// <summary>One bad file a rule, with the whole message.</summary>
public sealed class ProfileProblemTests : IDisposable
{
    private static readonly DateTimeZone s_berlin = DateTimeZoneProviders.Tzdb["Europe/Berlin"];
    private static readonly ProfileColumn s_plain = new()
    {
        Column = "load_kw",
        Unit = ProfileUnit.KW,
        Stamp = StampMark.Start,
        Clock = new ProfileClock.Local(),
    };

    private readonly TempFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Theory]
    [InlineData("2025-01-01 01:00,-0.3", "\"-0.3\" is below 0; a profile holds what is used or produced, never the net of both")]
    [InlineData("2025-01-01 01:00,NaN", "\"NaN\" is not a finite number")]
    [InlineData("2025-01-01 01:00,Infinity", "\"Infinity\" is not a finite number")]
    [InlineData("2025-01-01 01:00,1e999", "\"1e999\" is not a finite number")]
    [InlineData("2025-01-01 01:00,1e308", "\"1e308\" is more than any home, in any unit")]
    [InlineData("2025-01-01 01:00,", "\"\" is empty; every interval needs a number")]
    [InlineData("2025-01-01 01:00,off", "\"off\" is not a number")]
    public void Read_BadValue_SaysSo(string row, string sentence) =>
        Assert.Equal($"bad.csv line 3, load_kw: {sentence}.", Problems($"start,load_kw\n2025-01-01 00:00,0.1\n{row}\n2025-01-01 02:00,0.2\n"));

    [Theory]
    [InlineData("2025-01-01 00:00,1", "\"2025-01-01 00:00\" stands twice; each interval has one row")]
    [InlineData("2024-12-31 23:00,1", "\"2024-12-31 23:00\" comes after 2025-01-01 00:00; rows go forward in time")]
    [InlineData("2025-01-01 02:00,1", "\"2025-01-01 02:00\" comes after a gap; 1 row of 60 minutes from 2025-01-01 01:00 on is missing")]
    [InlineData("2025-01-01 04:00,1", "\"2025-01-01 04:00\" comes after a gap; 3 rows of 60 minutes from 2025-01-01 01:00 on are missing")]
    [InlineData("2025-01-01 01:17,1", "\"2025-01-01 01:17\" is not a whole number of 60-minute intervals after the row before")]
    [InlineData("2025-02-30 01:00,1", "\"2025-02-30 01:00\" is no day of the calendar")]
    [InlineData("2025-01-01 25:00,1", "\"2025-01-01 25:00\" is no time of the day")]
    [InlineData("1/1/2025,1", "\"1/1/2025\" is not a stamp such as 2025-01-31 00:15 or 2025-01-31T00:15:00Z")]
    [InlineData("2025-01-01 01:00+01:00,1", "\"2025-01-01 01:00\" differs from the first row's: either all stamps carry an offset or none")]
    public void Read_BadStamp_SaysSo(string row, string sentence)
    {
        string text = $"start,load_kw\n2025-01-01 00:00,0.1\n{row}\n";
        Assert.Equal($"bad.csv line 3, start: {sentence}.", Problems(text, s_plain with { StepMinutes = 60 }));
    }

    [Fact]
    public void Read_StepThatIsNone_SaysSo() => Assert.Equal(
        "bad.csv line 3, start: \"2025-01-01 00:10\" comes 10 minutes after the first row; an interval is 1, 5, 15, 30 or 60 minutes long.",
        Problems("start,load_kw\n2025-01-01 00:00,1\n2025-01-01 00:10,1\n"));

    [Fact]
    public void Read_HourThatTheClockSkips_SaysSo() => Assert.Equal(
        "bad.csv line 3, start: \"2025-03-30 02:00\" does not exist on the clock of Europe/Berlin, which skips that hour; a file that keeps 24 hours on every day needs clockChange: split-and-drop.",
        Problems("start,load_kw\n2025-03-30 01:00,1\n2025-03-30 02:00,0\n2025-03-30 03:00,1\n"));

    [Fact]
    public void Read_HourThatTheClockRepeatsStandsOnce_SaysSo() => Assert.Equal(
        "bad.csv line 4, start: \"2025-10-26 03:00\" comes too early: the clock of Europe/Berlin repeats 2025-10-26 02:00 and the second pass is missing; a file that keeps 24 hours on every day needs clockChange: split-and-drop.",
        Problems("start,load_kw\n2025-10-26 01:00,1\n2025-10-26 02:00,1\n2025-10-26 03:00,1\n"));

    [Fact]
    public void Read_SlotToDropIsNotZero_SaysSo() => Assert.Equal(
        "bad.csv line 3, load_kw: \"0.4\" stands at 2025-03-30 02:00, which the clock of Europe/Berlin skips; a slot that is dropped must be 0 or empty.",
        Problems("start,load_kw\n2025-03-30 01:00,1\n2025-03-30 02:00,0.4\n2025-03-30 03:00,1\n", s_plain with { ClockChange = ClockChange.SplitAndDrop }));

    [Fact]
    public void Read_EmptyOutsideADroppedSlot_SaysSo() => Assert.Equal(
        "bad.csv line 4, load_kw: \"\" is empty; every interval needs a number.",
        Problems("start,load_kw\n2025-03-30 01:00,1\n2025-03-30 02:00,\n2025-03-30 03:00,\n", s_plain with { ClockChange = ClockChange.SplitAndDrop }));

    [Fact]
    public void Read_SplitAndDropOnAClockThatDoesNotChange_SaysSo() => Assert.Equal(
        "bad.csv clockChange: split-and-drop is for the local clock only; no other clock changes.",
        Problems("start,load_kw\n", s_plain with { ClockChange = ClockChange.SplitAndDrop, Clock = new ProfileClock.Standard() }));

    [Fact]
    public void Read_StampWithoutOffset_SaysSo() => Assert.Equal(
        "bad.csv line 2, start: \"2025-01-01 00:00\" carries no offset from UTC; each stamp must.",
        Problems("start,load_kw\n2025-01-01 00:00,1\n2025-01-01 01:00,1\n", ProfileColumn.Ours("load_kw")));

    [Fact]
    public void Read_NoYear_SaysSo() => Assert.Equal(
        "bad.csv year: stamps written MM/DD HH:mm carry no year; the year must be stated.",
        Problems("start,load_kw\n", s_plain with { Pattern = "MM/DD HH:mm" }));

    [Fact]
    public void Read_PatternWithoutHour_SaysSo() => Assert.Equal(
        "bad.csv pattern: \"MM/DD\" names no hour (HH).", Problems("start,load_kw\n", s_plain with { Pattern = "MM/DD" }));

    [Fact]
    public void Read_YearNotCovered_SaysSo() => Assert.Equal(
        "bad.csv year: \"2024\" is not covered: the file has 2 intervals of 60 minutes from 2025-01-01 00:00 +01 (Europe/Berlin).",
        Problems("start,load_kw\n2025-01-01 00:00,1\n2025-01-01 01:00,1\n", s_plain with { Year = 2024 }));

    [Fact]
    public void Read_OtherIntervalsThanWanted_SaysSo()
    {
        string path = _folder.Write("bad.csv", "start,load_kw\n2025-01-01 00:00,1\n2025-01-01 01:00,1\n");
        Assert.Equal(
            "bad.csv load_kw: the file has 2 intervals of 60 minutes from 2025-01-01 00:00 +01 (Europe/Berlin), wanted are 8,760 intervals of 60 minutes from 2025-01-01 00:00 +01 (Europe/Berlin).",
            _folder.ProblemsOf(() => ProfileFile.Read(path, s_plain, s_berlin, TimeAxis.OfYear(s_berlin, 2025, 60))));
    }

    [Fact]
    public void Read_NoSuchColumn_NamesTheNearest() => Assert.Equal(
        "bad.csv line 1, header: \"load_kw\" names no column; the nearest is load_kwh.",
        Problems("start,load_kwh\n2025-01-01 00:00,1\n2025-01-01 01:00,1\n"));

    [Fact]
    public void Read_ColumnTwice_SaysSo() => Assert.Equal(
        "bad.csv line 1, header: \"load_kw\" names more than one column.", Problems("start,load_kw,load_kw\n2025-01-01 00:00,1,1\n"));

    [Fact]
    public void Read_ShortRow_SaysSo() => Assert.Equal(
        "bad.csv line 3: the row has 1 fields where the header has 2.", Problems("start,load_kw\n2025-01-01 00:00,1\n2025-01-01 01:00\n2025-01-01 02:00,1\n"));

    [Fact]
    public void Read_NoRows_SaysSo() => Assert.Equal("bad.csv: the file has fewer than two rows below its header.", Problems("start,load_kw\n"));

    [Fact]
    public void Read_NoFile_SaysSo() => Assert.Equal(
        "absent.csv: there is no such file.",
        _folder.ProblemsOf(() => ProfileFile.Read(Path.Combine(_folder.Path, "absent.csv"), s_plain, s_berlin)));

    [Fact]
    public void Read_ManyProblems_CarriesTwentyAndCountsTheRest()
    {
        string text = "start,load_kw\n" + string.Concat(Enumerable.Range(0, 24).Select(h => $"2025-01-01 {h:00}:00,-1\n"));
        string path = _folder.Write("bad.csv", text);
        ProblemsException e = Assert.Throws<ProblemsException>(() => ProfileFile.Read(path, s_plain, s_berlin));
        Assert.Equal(20, e.Problems.Count);
        Assert.Equal(4, e.More);
        Assert.EndsWith("\nand 4 more.", e.Message, StringComparison.Ordinal);
        Problem first = e.Problems[0];
        Assert.Equal((path, 2, "load_kw", "-1"), (first.File, first.Line, first.Field, first.Value));
    }

    private string Problems(string text, ProfileColumn? column = null)
    {
        string path = _folder.Write("bad.csv", text);
        return _folder.ProblemsOf(() => ProfileFile.Read(path, column ?? s_plain, s_berlin));
    }
}
