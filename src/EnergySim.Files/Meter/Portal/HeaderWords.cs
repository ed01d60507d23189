using System.Text.RegularExpressions;

namespace EnergySim.Files;

/// <summary>Words in headers and cells that say what a column is. Several languages, because exports come in the customer's.</summary>
internal static partial class HeaderWords
{
    private const RegexOptions Plain = RegexOptions.IgnoreCase | RegexOptions.CultureInvariant;

    // A low line counts as a letter in a pattern, and as a blank in a header.
    private static string Plainly(string text) => text.Replace('_', ' ');

    public static bool IsMoney(string text) => Money().IsMatch(Plainly(text));

    public static bool IsOtherService(string text) => OtherService().IsMatch(Plainly(text));

    public static bool IsOtherQuantity(string text) => OtherQuantity().IsMatch(Plainly(text));

    public static bool IsTotal(string text) => Total().IsMatch(Plainly(text));

    public static bool IsExport(string text) => Export().IsMatch(Plainly(text));

    public static bool IsImport(string text) => Import().IsMatch(Plainly(text)) && !IsExport(text);

    public static bool IsGeneration(string text) => Generation().IsMatch(Plainly(text)) && !IsExport(text);

    public static bool IsNet(string text) => Net().IsMatch(Plainly(text));

    public static bool IsRegister(string text) => Register().IsMatch(Plainly(text));

    public static bool IsQuality(string text) => Quality().IsMatch(Plainly(text));

    public static bool IsEstimate(string text) => Estimate().IsMatch(Plainly(text));

    public static bool IsMeter(string text) => Meter().IsMatch(Plainly(text)) && !UnitInBrackets().IsMatch(Plainly(text));

    public static bool IsUnit(string text) => Unit().IsMatch(Plainly(text));

    public static bool IsStart(string text) => Start().IsMatch(Plainly(text));

    public static bool IsEnd(string text) => End().IsMatch(Plainly(text));

    public static bool IsClerical(string text) => Clerical().IsMatch(Plainly(text));

    public static bool IsOrdinal(string text) => Ordinal().IsMatch(Plainly(text));

    public static bool IsWhole(string text) => Whole().IsMatch(Plainly(text));

    public static bool IsUtc(string text) => Utc().IsMatch(Plainly(text));

    public static bool IsTime(string text) => Time().IsMatch(Plainly(text));

    [GeneratedRegex(@"\$|€|£|\b(cost|price|amount|charge|bill(ed)?|rate|tariff|eur|usd|gbp|cad|aud|cents?|kosten|preis|betrag|prix|co[uû]t|precio|coste|pris|bel[oø]p|bedrag)\b|c/kwh|/kwh", Plain)]
    private static partial Regex Money();

    [GeneratedRegex(@"\b(gas|natural gas|therms?|ccf|mcf|water|wasser|eau|agua|steam|heat meter|gallons?|btu|m3|ft3|m³)\b", Plain)]
    private static partial Regex OtherService();

    [GeneratedRegex(@"\bk?va(r|rh|h)?\b|react|blind|voltage?|\bvolts?\b|\bcurrent\b|\bamp(s|ere)?\b|power factor|\bpf\b|frequency|\bhz\b|temp|°|humid|degree|\bdew|carbon|co2|peak demand|max(imum)? demand|R[1-4]\b", Plain)]
    private static partial Regex OtherQuantity();

    [GeneratedRegex(@"^(grand |daily |day |monthly |sub)?-?(total|sum|summe|gesamt|suma|somme|totaal|average|avg|mean|min|max|minimum|maximum|mittelwert|count)\b|\b(total|sum)s?:?$", Plain)]
    private static partial Regex Total();

    [GeneratedRegex(@"export|surplus|feed[ -_]?in|einspeis|r[uü]ck(speis|lief)|reverse|\bto[ _]?(the )?grid|inject|injec|\bsold\b|exced|verti|terug|invoed|inmatning|innmat|\breceived\b|\bR(CVD|EC)\b|\bAS( ?kWh)?\b|\bB1\b|sell|abgabe|net gen|generation to", Plain)]
    private static partial Regex Export();

    [GeneratedRegex(@"import|consum|usage|\buse[d]?\b|deliver|from[ _]?(the )?grid|bezug|verbrauch|forward|purchase|bought|\bAE( ?kWh)?\b|\bE1\b|afname|levering|verbruik|forbrug|forbruk|soutir|conso|f[oö]rbruk|electric(ity)?\b|\bload\b", Plain)]
    private static partial Regex Import();

    [GeneratedRegex(@"solar|\bpv\b|produc|erzeug|produktion|genera(?:t|ci)", Plain)]
    private static partial Regex Generation();

    [GeneratedRegex(@"\bnet\b|netto|saldo", Plain)]
    private static partial Regex Net();

    [GeneratedRegex(@"register|cumul|kumul|z[aä]hlerstand|meterstand|\bstand\b|lectura|meter read(ing)?\b|\bodometer|running total|\bindex\b|end read(ing)?|m[aå]lerst", Plain)]
    private static partial Regex Register();

    [GeneratedRegex(@"qual|kvalit|\bnotes?\b|estim|\bflag\b|status|actual|comment|real|valid|hinweis|reading type|read type|data type", Plain)]
    private static partial Regex Quality();

    [GeneratedRegex(@"^(E|EST|S|F|S\d\d|F\d\d|E\d\d|B)$|estim|gesch[aä]tzt|ansl|est[ií]m|skøn|ber[aä]kn|substitut|interpol|forecast|projected|ersatz", Plain)]
    private static partial Regex Estimate();

    [GeneratedRegex(@"meter|serial|\bnmi\b|mp[ar]n|esi[ _]?id|service (point|agreement|id|account)|account|premise|point|\bpod\b|\bean\b|cups|\bprm\b|\bpdl\b|z[aä]hler(nummer|nr|punkt)?$|m[aå](ler|lepunkt)|channel|kanal|device|register id|location|\bsite\b", Plain)]
    private static partial Regex Meter();

    [GeneratedRegex(@"\((k|m)?wh?\)|\[(k|m)?wh?\]", Plain)]
    private static partial Regex UnitInBrackets();

    [GeneratedRegex(@"\bunits?\b|\buom\b|einheit|enhed|unit[eé]|unidad|eenheid|enhet|\bmeasure", Plain)]
    private static partial Regex Unit();

    [GeneratedRegex(@"start|begin|from\b|\bvon\b|\bfra\b|d[eé]but|inicio|desde|\bfr[aå]n\b|\bvan\b|\bab\b", Plain)]
    private static partial Regex Start();

    [GeneratedRegex(@"\bend(s|ing|time|date)?\b|\bto\b|\btil\b|\bbis\b|\bfin\b|hasta|\btill\b|\btot\b|ending|stop|until|\bHE\b", Plain)]
    private static partial Regex End();

    [GeneratedRegex(@"revis|created|updated|modified|export(ed)?[ _]?(date|on|time|at)|bill|invoice|printed|generated on|read[ _]?date|retriev|download|processed|issued", Plain)]
    private static partial Regex Clerical();

    [GeneratedRegex(@"\bhours?\b|\bhr\b|hora|stunde|heure|\btime\b|\buur\b|\btime?me?\b|interval|period|slot|\bHE\b|\bnr\b", Plain)]
    private static partial Regex Ordinal();

    [GeneratedRegex(@"facility|whole[ -]?(house|home)|\bhouse\b|\bhome\b|net meter|\bmains?\b", Plain)]
    private static partial Regex Whole();

    [GeneratedRegex(@"\butc\b|\bgmt\b|zulu", Plain)]
    private static partial Regex Utc();

    [GeneratedRegex(@"time|date|stamp|epoch|datum|zeit|fecha|hor|tijd|tid|start|begin|end", Plain)]
    private static partial Regex Time();
}
