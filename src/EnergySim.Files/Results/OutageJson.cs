using System.Globalization;
using System.Text.Json;
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
    /// <param name="frontier">What each reserve saves and lasts; null = not asked.</param>
    public static void Write(Stream stream, OutageResult result, ReserveFrontier? frontier = null)
    {
        ArgumentNullException.ThrowIfNull(result);
        using Utf8JsonWriter json = ResultJson.Open(stream);
        json.WriteStartObject();
        json.WriteString("home", result.Home);
        WriteTerms(json, result.Terms);
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
        if (frontier is not null) OutageJsonParts.WriteFrontier(json, frontier);
        json.WriteEndObject();
    }

    internal static void WriteTerms(Utf8JsonWriter json, OutageTerms terms)
    {
        json.WriteNumber("horizonHours", terms.HorizonHours);
        json.WriteNumber("cloudFactor", terms.CloudFactor);
        json.WriteStartArray("cloudFactorByDay");
        foreach (double factor in terms.CloudFactorByDay) json.WriteNumberValue(factor);
        json.WriteEndArray();
        // Null where a profile or a list says what is kept.
        Number(json, "keptFraction", terms.Kept.Base.HouseFraction);
        json.WriteStartArray("parts");
        foreach (LoadPart part in terms.Kept.Parts)
        {
            json.WriteStartObject();
            json.WriteString("name", part.Name);
            Number(json, "keptFraction", part.KeptFraction);
            Number(json, "offBelowFraction", part.OffBelowFraction);
            json.WriteEndObject();
        }
        json.WriteEndArray();
        json.WriteString("startCharge", terms.StartCharge.ToString().ToLowerInvariant());
        Number(json, "stormLeadHours", terms.StartCharge == StartCharge.Storm ? terms.StormLeadHours : null);
        json.WriteBoolean("managesLoad", terms.ManagesLoad);
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
        json.WriteStartArray("halfLastHoursByMonthAndStartHour");
        foreach (IReadOnlyList<double?> month in offer.HalfLastByMonthAndHour)
        {
            json.WriteStartArray();
            foreach (double? hours in month) WriteValue(json, hours);
            json.WriteEndArray();
        }
        json.WriteEndArray();
        json.WriteStartArray("byWeather");
        foreach (WeatherOutcomes year in offer.ByWeather)
        {
            json.WriteStartObject();
            json.WriteString("weather", year.Weather);
            WriteSurvival(json, "lasting", year.Lasting);
            json.WriteEndObject();
        }
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
            json.WriteString("weather", worst.Weather);
            json.WriteEndObject();
        }
        json.WriteEndArray();
        OutageJsonParts.WriteNamed(json, offer.Named);
        OutageJsonParts.WriteVerdicts(json, offer.Verdicts);
        OutageJsonParts.WriteChanges(json, offer.Changes);
        OutageJsonParts.WriteCarried(json, offer.Carried);
        json.WriteEndObject();
    }

    internal static void WriteSurvival(Utf8JsonWriter json, string name, Survival survival)
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

    internal static void Number(Utf8JsonWriter json, string name, double? value)
    {
        json.WritePropertyName(name);
        WriteValue(json, value);
    }

    internal static void WriteValue(Utf8JsonWriter json, double? value)
    {
        if (value is double number) json.WriteNumberValue(Rounded(number));
        else json.WriteNullValue();
    }

    private static double Rounded(double value) => Math.Round(value, 6);

    internal static string At(LocalDateTime at) => at.ToString("uuuu-MM-dd'T'HH:mm", CultureInfo.InvariantCulture);
}
