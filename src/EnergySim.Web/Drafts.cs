using EnergySim.Files;
using EnergySim.Profiles;
using EnergySim.Profiles.Shapes;
using NodaTime;

namespace EnergySim.Web;

/// <summary>A home as the form asks it.</summary>
internal sealed record DraftRequest
{
    /// <summary>What it is called.</summary>
    public required string Name { get; init; }

    /// <summary>Where it is, in words.</summary>
    public string Place { get; init; } = "";

    /// <summary>IANA zone.</summary>
    public required string Zone { get; init; }

    /// <summary>Rating of the main breaker, A.</summary>
    public double? MainAmps { get; init; }

    /// <summary>Rating of the panel's busbar, A; null = the panel is not stated.</summary>
    public double? BusbarAmps { get; init; }

    /// <summary>Most that may be sold, kW.</summary>
    public double? ExportLimitKw { get; init; }

    /// <summary>A load that was read out of meter files; null = from bills.</summary>
    public string? Load { get; init; }

    /// <summary>Twelve bills; null = from meter files.</summary>
    public DraftBills? Bills { get; init; }

    /// <summary>The roof; null = no solar.</summary>
    public DraftRoof? Roof { get; init; }

    /// <summary>A tariff file of the library or the catalogue.</summary>
    public required string Plan { get; init; }

    /// <summary>The battery by its data sheet.</summary>
    public required DraftBattery Battery { get; init; }

    /// <summary>The offers: how many batteries at what price.</summary>
    public required IReadOnlyList<DraftOffer> Offers { get; init; }

    /// <summary>The reserve of all offers, 0–1.</summary>
    public double ReserveFraction { get; init; } = 0.2;
}

/// <summary>A year of bills and the house that they are of.</summary>
internal sealed record DraftBills(int Year, IReadOnlyList<double> Kwh, string Climate, bool HeatsWithElectricity, bool Cools, bool HeatsWater);

/// <summary>Roof planes under the weather of a file that was dropped.</summary>
internal sealed record DraftRoof(string Weather, double InverterKw, IReadOnlyList<DraftPlane> Planes);

/// <summary>A plane: degrees from the level, degrees clockwise from north, kW DC.</summary>
internal sealed record DraftPlane(double Tilt, double Azimuth, double Kw);

/// <summary>A battery unit.</summary>
internal sealed record DraftBattery(double CapacityKwh, double ChargeLimitKw, double DischargeLimitKw, double InverterKw);

/// <summary>So many units at a price.</summary>
internal sealed record DraftOffer(int Units, decimal? Price);

/// <summary>Makes of the form a home file and the files that it names, in a folder of their own, as if they had been dropped.</summary>
internal sealed class Drafts(Library library, OpenHomes homes)
{
    private const int StepMinutes = 15;

    /// <exception cref="ArgumentException">Something of the form does not fit.</exception>
    /// <exception cref="ProblemsException">The home that came out can not be used.</exception>
    public DropAnswer Make(DraftRequest draft)
    {
        DateTimeZone zone = DateTimeZoneProviders.Tzdb.GetZoneOrNull(draft.Zone) ?? throw new ArgumentException($"zone: \"{draft.Zone}\" is no IANA zone such as America/Denver.");
        (string area, string folder) = library.NewDrop();
        var notes = new List<string>();
        if (draft.Load is not null) File.Copy(library.PathOf(draft.Load), Path.Combine(folder, "load.csv"));
        else ProfileCsv.Write(Path.Combine(folder, "load.csv"), ("load_kw", OfBills(draft.Bills ?? throw new ArgumentException("bills: neither bills nor meter files are given."), zone, notes)));
        if (draft.Roof is DraftRoof roof) File.Copy(library.PathOf(roof.Weather), Path.Combine(folder, Path.GetFileName(roof.Weather)));
        string plan = library.PathOf(draft.Plan), text = File.ReadAllText(plan);
        string clocked = HomeText.WithZone(text, draft.Zone);
        if (clocked != text) notes.Add($"The plan was copied with its clock set to {draft.Zone}.");
        WholeFile.Write(Path.Combine(folder, Path.GetFileName(plan)), stream => stream.Write(System.Text.Encoding.UTF8.GetBytes(clocked)));
        WholeFile.Write(Path.Combine(folder, "home.yaml"), stream => stream.Write(System.Text.Encoding.UTF8.GetBytes(DraftText.Of(draft, Path.GetFileName(plan)))));
        string name = $"{area}/home.yaml";
        homes.Of(name, null);
        return new DropAnswer(name, [name], notes);
    }

    private static Profile OfBills(DraftBills bills, DateTimeZone zone, List<string> notes)
    {
        if (bills.Kwh.Count != 12) throw new ArgumentException($"bills: there are {bills.Kwh.Count} months; a year has twelve, January first.");
        if (bills.Year is < 1950 or > 2100) throw new ArgumentException($"bills: {bills.Year} is no year between 1950 and 2100.");
        if (bills.Kwh.Any(k => !(k is >= 0 and < 1e6))) throw new ArgumentException("bills: a month's kWh lie between 0 and 1,000,000.");
        MeteredBill[] months = [.. bills.Kwh.Select((kwh, m) => new MeteredBill { From = new LocalDate(bills.Year, m + 1, 1), To = new LocalDate(bills.Year, m + 1, 1).PlusMonths(1).PlusDays(-1), Kwh = kwh })];
        var house = new HouseShape
        {
            Climate = Climate.All.FirstOrDefault(c => c.Name == bills.Climate) ?? throw new ArgumentException($"bills: \"{bills.Climate}\" is no climate; they are {string.Join(", ", Climate.All.Select(c => c.Name))}."),
            HeatsWithElectricity = bills.HeatsWithElectricity,
            Cools = bills.Cools,
            HeatsWater = bills.HeatsWater,
        };
        notes.Add("The hours are not measured: they are those of a reference house of ours, with each bill's energy kept.");
        return BillYear.Of(zone, months, house, StepMinutes);
    }
}
