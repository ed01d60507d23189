using System.Globalization;
using System.Text.Json;
using System.Text.RegularExpressions;
using YamlDotNet.Core;
using YamlDotNet.RepresentationModel;

namespace EnergySim.Files.Tests.Schemas;

/// <summary>
/// Checks YAML against the part of JSON Schema 2020-12 that our schemas use. A keyword that it does not know is a fault, so that no
/// rule of a schema goes unasked. Plain values are read by the core schema of YAML 1.2 (yaml.org/spec/1.2.2, 10.3.2).
/// </summary>
internal sealed partial class SchemaCheck(JsonElement root)
{
    public static IReadOnlyList<string> FaultsOf(string schema, string yaml)
    {
        var stream = new YamlStream();
        stream.Load(new StringReader(yaml));
        JsonElement root = JsonDocument.Parse(schema).RootElement;
        return [.. new SchemaCheck(root).Faults(root, stream.Documents[0].RootNode, "")];
    }

    /// <summary>True when a node fits a part of a schema.</summary>
    public static bool Fits(JsonElement root, JsonElement schema, YamlNode node) => new SchemaCheck(root).Faults(schema, node, "").Count == 0;

    private List<string> Faults(JsonElement schema, YamlNode node, string path)
    {
        var faults = new List<string>();
        foreach (JsonProperty rule in schema.EnumerateObject()) faults.AddRange(FaultsOf(rule, schema, node, path));
        return faults;
    }

    private IEnumerable<string> FaultsOf(JsonProperty rule, JsonElement schema, YamlNode node, string path)
    {
        JsonElement value = rule.Value;
        double? number = NumberIn(node);
        string? text = (node as YamlScalarNode)?.Value;
        var map = node as YamlMappingNode;
        var list = node as YamlSequenceNode;
        switch (rule.Name)
        {
            case "$schema" or "$defs" or "title" or "description": return [];
            case "$ref": return Faults(Defined(value.GetString()!), node, path);
            case "type": return Is(value.GetString()!, node) ? [] : [$"{path} is no {value}"];
            case "const": return text == value.GetString() ? [] : [$"{path} is not {value}"];
            case "enum": return value.EnumerateArray().Any(v => v.ToString() == text) ? [] : [$"{path} is none of {string.Join(", ", value.EnumerateArray())}"];
            case "pattern": return text is null || Regex.IsMatch(text, value.GetString()!) ? [] : [$"{path} does not match {value}"];
            case "minLength": return text is null || text.Length >= value.GetInt32() ? [] : [$"{path} is too short"];
            case "minimum": return number is not double a || a >= value.GetDouble() ? [] : [$"{path} is below {value}"];
            case "exclusiveMinimum": return number is not double b || b > value.GetDouble() ? [] : [$"{path} is not above {value}"];
            case "maximum": return number is not double c || c <= value.GetDouble() ? [] : [$"{path} is above {value}"];
            case "exclusiveMaximum": return number is not double d || d < value.GetDouble() ? [] : [$"{path} is not below {value}"];
            case "minItems": return list is null || list.Children.Count >= value.GetInt32() ? [] : [$"{path} has too few items"];
            case "maxItems": return list is null || list.Children.Count <= value.GetInt32() ? [] : [$"{path} has too many items"];
            case "minProperties": return map is null || map.Children.Count >= value.GetInt32() ? [] : [$"{path} has too few keys"];
            case "items": return list is null ? [] : list.Children.SelectMany((item, i) => Faults(value, item, $"{path}[{i}]"));
            case "anyOf": return value.EnumerateArray().Any(s => Faults(s, node, path).Count == 0) ? [] : [$"{path} fits none of its forms"];
            case "required": return map is null ? [] : value.EnumerateArray().Where(k => ValueOf(map, k.GetString()!) is null).Select(k => $"{path}.{k} is missing");
            case "properties": return map is null ? [] : value.EnumerateObject().SelectMany(p => ValueOf(map, p.Name) is YamlNode at ? Faults(p.Value, at, $"{path}.{p.Name}") : []);
            case "additionalProperties": return map is null ? [] : Others(map, schema, value, path);
            default: return [$"the schema's keyword {rule.Name} is unknown here"];
        }
    }

    private IEnumerable<string> Others(YamlMappingNode map, JsonElement schema, JsonElement rule, string path)
    {
        foreach ((YamlNode key, YamlNode value) in map.Children)
        {
            string name = ((YamlScalarNode)key).Value!;
            if (schema.TryGetProperty("properties", out JsonElement known) && known.TryGetProperty(name, out _)) continue;
            if (rule.ValueKind == JsonValueKind.False) yield return $"{path}.{name} is not known";
            else foreach (string fault in Faults(rule, value, $"{path}.{name}")) yield return fault;
        }
    }

    private JsonElement Defined(string reference) => root.GetProperty("$defs").GetProperty(reference["#/$defs/".Length..]);

    private static YamlNode? ValueOf(YamlMappingNode map, string key) => map.Children.TryGetValue(new YamlScalarNode(key), out YamlNode? value) ? value : null;

    private static bool Is(string type, YamlNode node) => type switch
    {
        "object" => node is YamlMappingNode,
        "array" => node is YamlSequenceNode,
        "number" => NumberIn(node) is not null,
        "integer" => NumberIn(node) is double n && n == Math.Floor(n),
        "boolean" => node is YamlScalarNode { Style: ScalarStyle.Plain, Value: "true" or "false" },
        "string" => node is YamlScalarNode scalar && (scalar.Style != ScalarStyle.Plain || (NumberIn(node) is null && scalar.Value is not ("true" or "false" or "null" or "~" or ""))),
        _ => false,
    };

    private static double? NumberIn(YamlNode node) => node is YamlScalarNode { Style: ScalarStyle.Plain, Value: string text } && Number().IsMatch(text)
        ? double.Parse(text, CultureInfo.InvariantCulture)
        : null;

    [GeneratedRegex(@"^[-+]?(\.[0-9]+|[0-9]+(\.[0-9]*)?)([eE][-+]?[0-9]+)?$")]
    private static partial Regex Number();
}
