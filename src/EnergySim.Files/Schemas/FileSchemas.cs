namespace EnergySim.Files;

/// <summary>The JSON Schemas (draft 2020-12) of the YAML files, for editors to complete and check them while they are written.</summary>
public static class FileSchemas
{
    /// <summary>That of home files.</summary>
    public static string Home => Text("home.schema.json");

    /// <summary>That of tariff files.</summary>
    public static string Tariff => Text("tariff.schema.json");

    /// <summary>That of sweep files.</summary>
    public static string Sweep => Text("sweep.schema.json");

    private static string Text(string name)
    {
        using Stream stream = typeof(FileSchemas).Assembly.GetManifestResourceStream(name)
            ?? throw new InvalidOperationException($"{name} is not embedded.");
        using var reader = new StreamReader(stream);
        return reader.ReadToEnd();
    }
}
