using System.Security.Cryptography;
using System.Text;
using YamlDotNet.RepresentationModel;

namespace EnergySim.Files;

/// <summary>Tells one sweep from another: a hash of the sweep file, its homes and tariffs, and every file that those name.</summary>
internal static class SweepHash
{
    /// <summary>The hash, 64 hexadecimal digits.</summary>
    public static string Of(string sweep, IReadOnlyList<string> homes, IReadOnlyList<string> tariffs)
    {
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        hash.AppendData(Encoding.UTF8.GetBytes($"{typeof(SweepHash).Assembly.GetName().Version}\n"));
        var seen = new HashSet<string>(StringComparer.Ordinal);
        foreach (string file in (string[])[sweep, .. homes, .. tariffs]) Add(hash, file, seen);
        return Convert.ToHexStringLower(hash.GetHashAndReset());
    }

    private static void Add(IncrementalHash hash, string file, HashSet<string> seen)
    {
        if (!seen.Add(Path.GetFullPath(file))) return;
        using (FileStream stream = File.OpenRead(file)) hash.AppendData(SHA256.HashData(stream));
        if (Path.GetExtension(file) is not (".yaml" or ".yml")) return;
        if (YamlMap.RootOf(file, new ProblemList()) is not YamlMappingNode root) return;
        foreach (YamlScalarNode value in root.AllNodes.OfType<YamlScalarNode>())
            if (value.Value is { Length: > 0 and < 1000 } text && text.Contains('.', StringComparison.Ordinal) && HomeFile.Beside(file, text) is var named && File.Exists(named)) Add(hash, named, seen);
    }
}
