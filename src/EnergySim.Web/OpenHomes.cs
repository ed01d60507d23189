using System.Globalization;
using System.Text.Json;
using EnergySim.Files;
using EnergySim.Reports;
using EnergySim.Studies.Outages;
using EnergySim.Studies.Visit;
using EnergySim.Tariffs;

namespace EnergySim.Web;

/// <summary>A home read, its plan laid on its axis, and the outage that is told where the file names none.</summary>
internal sealed class OpenHome(HomeReading reading, string stamp)
{
    private readonly Lazy<NodaTime.LocalDateTime> _worst = new(() => OfferInOutage.WorstStart(reading.Home, Laid(reading.Home), reading.Outage));
    private readonly Lazy<TariffCalendar> _calendar = new(() => Laid(reading.Home));

    public HomeReading Reading => reading;

    public string Stamp => stamp;

    public TariffCalendar Calendar => _calendar.Value;

    /// <summary>Local start of the outage that is told: the file's, else the worst of the first offer.</summary>
    public NodaTime.LocalDateTime NamedStart => reading.Outage.NamedStart ?? _worst.Value;

    private static TariffCalendar Laid(Home home) => new(home.Tariff, home.Load.Axis, home.Account, home.Load.Kw);
}

/// <summary>The homes that are open, each read once and again only when one of its files has changed; and the last answers.</summary>
internal sealed class OpenHomes(Library library)
{
    private readonly Kept<OpenHome> _homes = new(12);
    private readonly Kept<VisitAnswer> _answers = new(12);
    private readonly Lock _lock = new();
    private readonly Dictionary<string, (IReadOnlyList<string> Files, string Stamp)> _stamps = [];

    /// <summary>A home under a plan.</summary>
    /// <param name="home">Name of its file.</param>
    /// <param name="plan">Name of a tariff file in place of the home's; null = the home's.</param>
    /// <exception cref="ProblemsException">A file can not be used.</exception>
    public OpenHome Of(string home, string? plan)
    {
        string path = library.PathOf(home);
        if (!File.Exists(path)) throw new FileNotFoundException($"There is no file \"{home}\".");
        string? tariff = plan is null ? null : library.PathOf(plan);
        string key = $"{home}\n{plan}";
        return _homes.Of($"{key}\n{StampOf(key)}", () =>
        {
            HomeReading reading = HomeFile.Read(path, tariff, library.Folders);
            string[] files = [.. reading.Inputs.Select(i => i.Path)];
            string stamp = StampOf(files);
            lock (_lock) _stamps[key] = (files, stamp);
            return new OpenHome(reading, $"{key}\n{stamp}");
        });
    }

    /// <summary>A home with the choices laid over it.</summary>
    public (OpenHome Open, VisitHome Visit) Visit(VisitRequest request)
    {
        OpenHome open = Of(request.Home, request.Plan);
        VisitChoices choices = request.Choices.ToChoices();
        return (open, VisitHome.Of(open.Reading.Home, open.Reading.Outage, choices.OutageStart is null ? choices with { OutageStart = open.NamedStart } : choices));
    }

    /// <summary>What moves at once; kept, so that a chart of the same figures need not work them out again.</summary>
    public VisitAnswer Answer(VisitRequest request)
    {
        OpenHome open = Of(request.Home, request.Plan);
        return _answers.Of($"{open.Stamp}\n{JsonSerializer.Serialize(request.Choices)}", () => VisitAnswer.Of(Visit(request).Visit, open.Calendar));
    }

    /// <summary>Reads and asks the home that the page opens first; what is wrong with it is told when it is asked for.</summary>
    public void Warm(Library from)
    {
        try
        {
            (string Name, string Title)[] all = [.. from.With("home")];
            string? first = all.Select(h => h.Name).FirstOrDefault(n => n.StartsWith(Library.Own + "/", StringComparison.Ordinal))
                ?? all.Select(h => h.Name).FirstOrDefault(n => n.EndsWith("/demo-home.yaml", StringComparison.Ordinal));
            if (first is null) return;
            VisitAnswer answer = Answer(new VisitRequest { Home = first });
            VisitJson.Write(Stream.Null, answer);
            SavingsChart.Svg(answer.Comparison);
        }
        catch (Exception fault) when (fault is ProblemsException or ArgumentException or IOException or UnauthorizedAccessException)
        {
            // It was only to be quicker.
        }
    }

    // Of the files as they were when last read; before that there is nothing to be stale.
    private string StampOf(string key)
    {
        lock (_lock)
        {
            return _stamps.TryGetValue(key, out (IReadOnlyList<string> Files, string Stamp) known) ? StampOf(known.Files) : "";
        }
    }

    private static string StampOf(IReadOnlyList<string> files) => string.Join('|', files.Select(f =>
    {
        var info = new FileInfo(f);
        return info.Exists ? string.Create(CultureInfo.InvariantCulture, $"{info.LastWriteTimeUtc.Ticks}.{info.Length}") : "-";
    }));
}
