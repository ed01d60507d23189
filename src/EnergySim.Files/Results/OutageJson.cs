using System.Globalization;
using System.Text.Encodings.Web;
using System.Text.Json;
using EnergySim.Engine;
using EnergySim.Studies.Outages;
using NodaTime;

namespace EnergySim.Files;

/// <summary>Writes outages as one JSON document. Times are local without offset; unknown or "at least the horizon" is stated, never guessed.</summary>
public static class OutageJson
{
    private static readonly int[] s_hours = [2, 8, 24, 72, 120, 168, 240, 336];

    /// <summary>Writes the document.</summary>
    /// <param name="stream">Where it goes.</param>
    /// <param name="result">The result.</param>
    public static void Write(Stream stream, OutageResult result)
    {
        ArgumentNullException.ThrowIfNull(result);
        using var json = new Utf8JsonWriter(stream, new JsonWriterOptions { Indented = true, NewLine = "\n", Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping });
        json.WriteStartObject();
        json.WriteString("home", result.Home);
        json.WriteNumber("horizonHours", result.Terms.HorizonHours);
        json.WriteNumber("cloudFactor", result.Terms.CloudFactor);
        json.WriteNumber("keptFraction", result.Terms.Kept.Base.HouseFraction ?? 0);
        json.WriteString("startCharge", result.Terms.StartCharge.ToString().ToLowerInvariant());
        json.WriteBoolean("managesLoad", result.Terms.ManagesLoad);
        json.WriteStartArray("notes");
        foreach (string note in result.Notes) json.WriteStringValue(note);
        json.WriteEndArray();
        json.WriteStartArray("offers");
        foreach (OfferOutages offer in result.Offers) WriteOffer(json, offer);
        json.WriteEndArray();
        json.WriteStartArray("pairs");
        foreach (PairedOutages pair in result.Pairs)
        {
            json.WriteStartObject();
            json.WriteString("first", pair.First);
            json.WriteString("second", pair.Second);
            json.WriteNumber("addsNothingFraction", Rounded(pair.AddsNothingFraction));
            json.WriteNumber("addsHoursFraction", Rounded(pair.AddsHoursFraction));
            json.WriteNumber("carriesNightFraction", Rounded(pair.CarriesNightFraction));
            json.WriteNumber("takesHoursFraction", Rounded(pair.TakesHoursFraction));
            json.WriteEndObject();
        }
        json.WriteEndArray();
        json.WriteEndObject();
    }

    private static void WriteOffer(Utf8JsonWriter json, OfferOutages offer)
    {
        json.WriteStartObject();
        json.WriteString("name", offer.Name);
        WriteSurvival(json, "lasting", offer.Any);
        WriteSurvival(json, "lastingOnEnergy", offer.OnEnergy);
        json.WriteStartObject("bySeason");
        foreach ((string season, Survival survival) in offer.BySeason) WriteSurvival(json, season, survival);
        json.WriteEndObject();
        json.WriteStartArray("halfLastHoursByStartHour");
        foreach (double? hours in offer.HalfLastByHour) WriteValue(json, hours);
        json.WriteEndArray();
        Number(json, "availabilityFraction", offer.Availability);
        Number(json, "meanUnservedKwh", offer.MeanUnservedKwh);
        Number(json, "meanDarkHours", offer.MeanDarkHours);
        json.WriteStartArray("worst");
        foreach (WorstStart worst in offer.Worst)
        {
            json.WriteStartObject();
            json.WriteString("start", At(worst.At));
            Number(json, "lastingHours", worst.LastingHours);
            Number(json, "startKwh", worst.StartKwh);
            Number(json, "unservedKwh", worst.UnservedKwh);
            json.WriteEndObject();
        }
        json.WriteEndArray();
        WriteNamed(json, offer.Named);
        json.WriteEndObject();
    }

    private static void WriteSurvival(Utf8JsonWriter json, string name, Survival survival)
    {
        json.WriteStartObject(name);
        json.WriteNumber("starts", survival.Starts);
        Number(json, "censoredFraction", survival.CensoredFraction);
        // A figure equal to horizonHours is "at least": censored.
        Number(json, "nineInTenHours", survival.HoursLastedBy(0.9));
        Number(json, "halfHours", survival.HoursLastedBy(0.5));
        Number(json, "oneInTenHours", survival.HoursLastedBy(0.1));
        json.WriteStartObject("atLeastFraction");
        foreach (int hours in s_hours) Number(json, hours.ToString(CultureInfo.InvariantCulture), survival.AtLeast(hours));
        json.WriteEndObject();
        json.WriteEndObject();
    }

    private static void WriteNamed(Utf8JsonWriter json, NamedOutage named)
    {
        json.WriteStartObject("named");
        json.WriteString("start", At(named.At));
        Number(json, "hours", named.Hours);
        Number(json, "startKwh", named.StartKwh);
        Number(json, "firstUnservedHours", named.FirstUnservedHours);
        Number(json, "firstDarkHours", named.FirstDarkHours);
        Number(json, "recoversHours", named.RecoversHours);
        Number(json, "curtailedKwh", named.CurtailedKwh);
        UnservedByCause unserved = named.Ledger.Sums.UnservedKwh;
        json.WriteStartObject("unservedKwh");
        Number(json, "energy", unserved.Energy);
        Number(json, "dischargeRate", unserved.DischargeRate);
        Number(json, "inverter", unserved.Inverter);
        Number(json, "inverterBreaker", unserved.InverterBreaker);
        Number(json, "busbar", unserved.Busbar);
        Number(json, "trip", unserved.Trip);
        json.WriteEndObject();
        Column("storedKwh", i => named.Ledger[LedgerColumn.StoredKwh][i]);
        Column("unservedKw", i => named.Ledger[LedgerColumn.UnservedKw][i]);
        Column("hoursLeftWithSun", i => named.HoursLeftWithSun[i]);
        Column("hoursLeftWithoutSun", i => named.HoursLeftWithoutSun[i]);
        json.WriteEndObject();

        void Column(string name, Func<int, double?> value)
        {
            json.WriteStartArray(name);
            for (int i = 0; i < named.HoursLeftWithSun.Count; i++) WriteValue(json, value(i));
            json.WriteEndArray();
        }
    }

    private static void Number(Utf8JsonWriter json, string name, double? value)
    {
        json.WritePropertyName(name);
        WriteValue(json, value);
    }

    private static void WriteValue(Utf8JsonWriter json, double? value)
    {
        if (value is double number) json.WriteNumberValue(Rounded(number));
        else json.WriteNullValue();
    }

    private static double Rounded(double value) => Math.Round(value, 6);

    private static string At(LocalDateTime at) => at.ToString("uuuu-MM-dd'T'HH:mm", CultureInfo.InvariantCulture);
}
