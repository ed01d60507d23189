using System.Globalization;
using System.Text.Json;
using EnergySim.Studies.Outages;
using NodaTime;

namespace EnergySim.Web;

/// <summary>What the page must know of a home to show its controls: names, ranges, and what its files say.</summary>
internal sealed record HomeSummary(
    string File, string Name, string Place, string Note, string Zone, int StepMinutes, string From, string To, bool HasSolar, string Plan, string PlanPublisher, string Currency,
    IReadOnlyList<OfferSummary> Offers, OutageSummary Outage, double EnergyGrowthFraction, int Years, bool IsWholeYear, IReadOnlyList<WaySummary> Ways, IReadOnlyList<string> Repairs, bool CanSave)
{
    public static HomeSummary Of(string file, OpenHome open)
    {
        Home home = open.Reading.Home;
        OutageTerms outage = open.Reading.Outage;
        LocalDate from = home.Load.Axis.LocalDateOf(0), to = home.Load.Axis.LocalDateOf(home.Load.Axis.Count - 1);
        return new HomeSummary(
            file, home.Name, home.Place, home.Note, home.Load.Axis.Zone.Id, home.Load.Axis.StepMinutes, Date(from), Date(to), home.Solar is not null,
            home.Tariff.Name, home.Tariff.Publisher, home.Tariff.Currency,
            [.. home.Offers.Select(o => new OfferSummary(
                o.Name, o.Battery.Name, o.Units, o.Price, o.Strategy.ReserveFraction, Word(o.Strategy.Base), Math.Round((o.Battery.CapacityKwh - o.Battery.LowestKwh) * o.Units, 3), Math.Round(o.Battery.InverterKw * o.Units, 3)))],
            new OutageSummary(
                outage.CloudFactor, outage.NamedHours, open.NamedStart.ToString("uuuu-MM-dd'T'HH:mm", CultureInfo.InvariantCulture), outage.NamedStart is not null,
                outage.Kept.Base.HouseFraction, [.. outage.Kept.Parts.Select(p => new PartSummary(p.Name, p.KeptFraction > 0))], outage.StartCharge, outage.HorizonHours, outage.WeatherYears.Count),
            home.Money.Growth.Energy, home.Money.HorizonYears, Period.DaysBetween(from, to) + 1 is 365 or 366,
            home.Wiring is null ? [] : [.. home.Wiring.Ways.Select(w => new WaySummary(w.Name, Word(w.Keeps)))],
            open.Reading.Repairs, file.StartsWith(Library.Own + "/", StringComparison.Ordinal));
    }

    private static string Word(Enum value) => JsonNamingPolicy.KebabCaseLower.ConvertName(value.ToString());

    private static string Date(LocalDate date) => date.ToString("uuuu-MM-dd", CultureInfo.InvariantCulture);
}

/// <summary>An offer as its file says it.</summary>
internal sealed record OfferSummary(string Name, string Battery, int Units, decimal? Price, double ReserveFraction, string Strategy, double UsableKwh, double InverterKw);

/// <summary>What the file asks of outages.</summary>
internal sealed record OutageSummary(double SunFraction, int Hours, string Start, bool StartIsStated, double? KeptFraction, IReadOnlyList<PartSummary> Parts, StartCharge Charge, int HorizonHours, int WeatherYears);

/// <summary>A part of the house that may be shed.</summary>
internal sealed record PartSummary(string Name, bool Runs);

/// <summary>A way to connect.</summary>
internal sealed record WaySummary(string Name, string Keeps);
