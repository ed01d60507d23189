using System.Text.Json;
using EnergySim.Engine;
using EnergySim.Studies.Outages;

namespace EnergySim.Files;

/// <summary>Parts of the outage document: the outage in detail, verdicts, changes, kinds of outage, the reserve's frontier.</summary>
internal static class OutageJsonParts
{
    public static void WriteNamed(Utf8JsonWriter json, NamedOutage named)
    {
        json.WriteStartObject("named");
        json.WriteString("start", OutageJson.At(named.At));
        OutageJson.Number(json, "hours", named.Hours);
        OutageJson.Number(json, "startKwh", named.StartKwh);
        OutageJson.Number(json, "firstUnservedHours", named.FirstUnservedHours);
        OutageJson.Number(json, "firstDarkHours", named.FirstDarkHours);
        OutageJson.Number(json, "recoversHours", named.RecoversHours);
        OutageJson.Number(json, "curtailedKwh", named.CurtailedKwh);
        OutageJson.Number(json, "shedKwh", named.Ledger.Sums.ShedKwh);
        OutageJson.Number(json, "generatorKwh", named.Ledger.Sums.Kwh(LedgerColumn.ImportKw));
        WriteEvents(json, named.Events);
        UnservedByCause unserved = named.Ledger.Sums.UnservedKwh;
        json.WriteStartObject("unservedKwh");
        OutageJson.Number(json, "energy", unserved.Energy);
        OutageJson.Number(json, "dischargeRate", unserved.DischargeRate);
        OutageJson.Number(json, "inverter", unserved.Inverter);
        OutageJson.Number(json, "inverterBreaker", unserved.InverterBreaker);
        OutageJson.Number(json, "busbar", unserved.Busbar);
        OutageJson.Number(json, "trip", unserved.Trip);
        json.WriteEndObject();
        Column("storedKwh", i => named.Ledger[LedgerColumn.StoredKwh][i]);
        Column("unservedKw", i => named.Ledger[LedgerColumn.UnservedKw][i]);
        Column("hoursLeftWithSun", i => named.HoursLeftWithSun[i]);
        Column("hoursLeftWithoutSun", i => named.HoursLeftWithoutSun[i]);
        json.WriteEndObject();

        void Column(string name, Func<int, double?> value)
        {
            json.WriteStartArray(name);
            for (int i = 0; i < named.HoursLeftWithSun.Count; i++) OutageJson.WriteValue(json, value(i));
            json.WriteEndArray();
        }
    }

    public static void WriteVerdicts(Utf8JsonWriter json, CarryVerdicts verdicts)
    {
        json.WriteStartObject("verdicts");
        json.WriteStartObject("power");
        json.WriteString("carries", Word(verdicts.Power.Carries));
        OutageJson.Number(json, "peakKw", verdicts.Power.PeakKw);
        json.WriteString("peakAt", OutageJson.At(verdicts.Power.PeakAt));
        OutageJson.Number(json, "continuousKw", Finite(verdicts.Power.ContinuousKw));
        OutageJson.Number(json, "hoursAbove", verdicts.Power.HoursAbove);
        json.WriteBoolean("isCoarse", verdicts.Power.IsCoarse);
        json.WriteEndObject();
        if (verdicts.Starting is StartingVerdict starting)
        {
            json.WriteStartObject("starting");
            json.WriteString("acrossTheLine", Word(starting.Across));
            json.WriteString("withSoftStarters", Word(starting.Soft));
            OutageJson.Number(json, "surgeAmps", starting.SurgeAmps);
            json.WriteStartArray("motors");
            foreach (MotorStart start in starting.Starts)
            {
                json.WriteStartObject();
                json.WriteString("name", start.Motor.Name);
                OutageJson.Number(json, "startAmps", start.LockedRotorAmps);
                OutageJson.Number(json, "softStartAmps", start.SoftAmps);
                OutageJson.Number(json, "othersAmps", start.OthersAmps);
                json.WriteEndObject();
            }
            json.WriteEndArray();
            json.WriteEndObject();
        }
        json.WriteString("energy", Word(verdicts.Energy));
        if (verdicts.Legs is LegVerdict legs)
        {
            json.WriteStartObject("legs");
            json.WriteString("carries", Word(legs.Carries));
            OutageJson.Number(json, "firstKw", legs.FirstKw);
            OutageJson.Number(json, "secondKw", legs.SecondKw);
            OutageJson.Number(json, "perLegKw", legs.PerLegKw);
            json.WriteEndObject();
        }
        json.WriteEndObject();
    }

    public static void WriteChanges(Utf8JsonWriter json, IReadOnlyList<CarryingChange> changes)
    {
        json.WriteStartArray("changes");
        foreach (CarryingChange change in changes)
        {
            json.WriteStartObject();
            json.WriteString("change", change.Change);
            json.WriteBoolean("carries", change.Carries);
            OutageJson.Number(json, "firstUnservedHours", change.FirstUnservedHours);
            json.WriteEndObject();
        }
        json.WriteEndArray();
    }

    public static void WriteCarried(Utf8JsonWriter json, IReadOnlyList<(OutageKind Kind, double CarriedFraction)> carried)
    {
        json.WriteStartArray("outagesCarried");
        foreach ((OutageKind kind, double fraction) in carried)
        {
            json.WriteStartObject();
            json.WriteString("kind", kind.Name);
            OutageJson.Number(json, "perYear", kind.PerYear);
            OutageJson.Number(json, "meanHours", kind.MeanHours);
            OutageJson.Number(json, "carriedFraction", fraction);
            json.WriteEndObject();
        }
        json.WriteEndArray();
    }

    public static void WriteFrontier(Utf8JsonWriter json, ReserveFrontier frontier)
    {
        json.WriteStartObject("frontier");
        OutageJson.Number(json, "wishHours", frontier.Wish.Hours);
        OutageJson.Number(json, "wishFraction", frontier.Wish.ShareOfStarts);
        json.WriteString("currency", frontier.Currency);
        json.WriteStartArray("offers");
        foreach (OfferFrontier offer in frontier.Offers)
        {
            json.WriteStartObject();
            json.WriteString("name", offer.Name);
            OutageJson.Number(json, "reserveFraction", offer.ReserveFraction);
            OutageJson.Number(json, "recommendedReserveFraction", offer.Recommended?.ReserveFraction);
            json.WriteStartArray("points");
            foreach (FrontierPoint point in offer.Points)
            {
                json.WriteStartObject();
                OutageJson.Number(json, "reserveFraction", point.ReserveFraction);
                json.WriteNumber("annualSaving", point.AnnualSaving);
                OutageJson.WriteSurvival(json, "lasting", point.Lasting);
                OutageJson.Number(json, "wishLastedFraction", point.WishFraction);
                json.WriteEndObject();
            }
            json.WriteEndArray();
            json.WriteEndObject();
        }
        json.WriteEndArray();
        json.WriteEndObject();
    }

    private static void WriteEvents(Utf8JsonWriter json, IReadOnlyList<SpellEvent> events)
    {
        json.WriteStartArray("events");
        foreach (SpellEvent one in events)
        {
            json.WriteStartObject();
            json.WriteString("kind", JsonNamingPolicy.CamelCase.ConvertName(one.Kind.ToString()));
            OutageJson.Number(json, "hour", one.Hour);
            json.WriteString("at", OutageJson.At(one.At));
            OutageJson.Number(json, "storedKwh", one.StoredKwh);
            json.WriteEndObject();
        }
        json.WriteEndArray();
    }

    private static string Word(Answer answer) => answer.ToString().ToLowerInvariant();

    // JSON has no infinity; no limit is null.
    private static double? Finite(double value) => double.IsFinite(value) ? value : null;
}
