using System.Text.Json;
using YamlDotNet.RepresentationModel;

namespace EnergySim.Files.Tests.Schemas;

/// <summary>
/// Which keys and words of a schema a YAML file uses: a key as <c>section.key</c>, a word of a list as <c>section.key=word</c>. Sections
/// are the schema's definitions; the top and <c>later</c> are one, as both hold a version's terms.
/// </summary>
internal sealed class SchemaUse
{
    private readonly JsonElement _root;

    private SchemaUse(string schema) => _root = JsonDocument.Parse(schema).RootElement;

    public HashSet<string> Found { get; } = [];

    /// <summary>What files use.</summary>
    public static IReadOnlySet<string> Of(string schema, IEnumerable<string> yamls)
    {
        var use = new SchemaUse(schema);
        foreach (string yaml in yamls)
        {
            var stream = new YamlStream();
            stream.Load(new StringReader(yaml));
            use.Walk(use._root, stream.Documents[0].RootNode, "");
        }
        return use.Found;
    }

    /// <summary>What there is to use.</summary>
    public static IReadOnlySet<string> All(string schema)
    {
        var use = new SchemaUse(schema);
        use.Collect(use._root, "");
        foreach (JsonProperty definition in use._root.GetProperty("$defs").EnumerateObject()) use.Collect(definition.Value, Section(definition.Name));
        return use.Found;
    }

    private static string Section(string definition) => definition == "later" ? "" : definition;

    private void Walk(JsonElement schema, YamlNode node, string name)
    {
        if (schema.TryGetProperty("$ref", out JsonElement reference))
        {
            string definition = reference.GetString()!["#/$defs/".Length..];
            Walk(_root.GetProperty("$defs").GetProperty(definition), node, Section(definition));
            return;
        }
        if (schema.TryGetProperty("anyOf", out JsonElement forms))
            Walk(forms.EnumerateArray().First(form => SchemaCheck.Fits(_root, form, node)), node, name);
        foreach (string word in Words(schema))
            if ((node as YamlScalarNode)?.Value == word) Found.Add($"{name}={word}");
        if (node is YamlSequenceNode list && schema.TryGetProperty("items", out JsonElement items))
            foreach (YamlNode item in list.Children) Walk(items, item, name);
        if (node is not YamlMappingNode map || !schema.TryGetProperty("properties", out JsonElement properties)) return;
        foreach ((YamlNode key, YamlNode value) in map.Children)
        {
            string path = $"{name}.{((YamlScalarNode)key).Value}";
            Found.Add(path);
            Walk(properties.GetProperty(((YamlScalarNode)key).Value!), value, path);
        }
    }

    private void Collect(JsonElement schema, string name)
    {
        foreach (string word in Words(schema)) Found.Add($"{name}={word}");
        if (!schema.TryGetProperty("properties", out JsonElement properties)) return;
        foreach (JsonProperty property in properties.EnumerateObject())
        {
            Found.Add($"{name}.{property.Name}");
            Collect(property.Value, $"{name}.{property.Name}");
        }
    }

    // Lengths of an interval are no words.
    private static IEnumerable<string> Words(JsonElement schema)
    {
        if (schema.TryGetProperty("const", out JsonElement only)) return [only.GetString()!];
        return schema.TryGetProperty("enum", out JsonElement list) ? [.. list.EnumerateArray().Where(w => w.ValueKind == JsonValueKind.String).Select(w => w.GetString()!)] : [];
    }
}
