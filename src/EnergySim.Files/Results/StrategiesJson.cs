using System.Text.Json;
using EnergySim.Studies.Causes;
using EnergySim.Studies.Control;

namespace EnergySim.Files;

/// <summary>Writes strategies, causes of savings and bounds as one JSON document.</summary>
public static class StrategiesJson
{
    /// <summary>Writes the document.</summary>
    /// <param name="stream">Where it goes.</param>
    /// <param name="strategies">What each strategy comes to.</param>
    /// <param name="causes">Why each offer's own saves.</param>
    /// <param name="bounds">The bound of each offer; empty = not asked for.</param>
    public static void Write(Stream stream, StrategyComparison strategies, IReadOnlyList<SavingCauses> causes, IReadOnlyList<BoundQuote> bounds)
    {
        ArgumentNullException.ThrowIfNull(strategies);
        ArgumentNullException.ThrowIfNull(causes);
        ArgumentNullException.ThrowIfNull(bounds);
        using Utf8JsonWriter json = ResultJson.Open(stream);
        json.WriteStartObject();
        json.WriteString("home", strategies.Home);
        json.WriteString("currency", strategies.Currency);
        json.WriteNumber("asItIsBill", strategies.AsItIsBill);
        json.WriteList("offers", Enumerable.Range(0, strategies.Offers.Count), o =>
        {
            json.WriteStartObject();
            json.WriteString("name", strategies.Offers[o].Name);
            json.WriteList("strategies", strategies.Offers[o].Results, result => WriteResult(json, result));
            CausesJson.WriteCauses(json, causes[o]);
            if (bounds.Count > 0) WriteBound(json, bounds[o]);
            json.WriteEndObject();
        });
        json.WriteEndObject();
    }

    private static void WriteResult(Utf8JsonWriter json, StrategyResult result)
    {
        json.WriteStartObject();
        json.WriteString("base", StrategyWords.Of(result.Strategy.Base));
        json.WriteString("description", StrategyWords.Of(result.Strategy));
        json.WriteList("rules", StrategyWords.RulesOf(result.Strategy), rule =>
        {
            json.WriteStartObject();
            json.WriteString("rule", rule.Key);
            json.WriteString("terms", rule.Terms);
            json.WriteEndObject();
        });
        json.WriteBoolean("isTheOffers", result.IsOwn);
        json.WriteNumber("bill", result.Bill);
        json.WriteNumber("saved", result.Saved);
        json.WriteEndObject();
    }

    private static void WriteBound(Utf8JsonWriter json, BoundQuote bound)
    {
        json.WriteStartObject("bound");
        json.WriteNumber("bill", Math.Round(bound.Bill, 4));
        json.WriteNumber("replayBill", Math.Round(bound.ReplayBill, 4));
        json.WriteNumber("mostSaved", Math.Round(bound.MostSaved, 4));
        if (bound.ReachedFraction is double reached) json.WriteNumber("reachedFraction", Math.Round(reached, 6));
        else json.WriteNull("reachedFraction");
        json.WriteNumber("simultaneousKwh", Math.Round(bound.SimultaneousKwh, 6));
        json.WriteList("leftOpen", bound.LeftOpen, json.WriteStringValue);
        json.WriteEndObject();
    }
}
