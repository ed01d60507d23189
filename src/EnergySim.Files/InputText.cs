using System.Security.Cryptography;

namespace EnergySim.Files;

/// <summary>A file that was read.</summary>
/// <param name="Path">Its path as it was opened.</param>
/// <param name="Sha256">SHA-256 of its bytes, 64 lower-case hexadecimal digits.</param>
public sealed record InputFile(string Path, string Sha256);

/// <summary>Opens input files.</summary>
internal static class InputText
{
    /// <summary>The text of a file, told to the list as read; null, with a problem, when it can not be read.</summary>
    public static string? Read(string file, ProblemList problems)
    {
        string rule;
        try
        {
            if (!problems.MayOpen(file))
            {
                problems.Add(new Problem { File = file, Rule = "the file lies outside the folders that may be read" });
                return null;
            }
            byte[] bytes = File.ReadAllBytes(file);
            problems.HasRead(new InputFile(file, Convert.ToHexStringLower(SHA256.HashData(bytes))));
            using var reader = new StreamReader(new MemoryStream(bytes));
            return reader.ReadToEnd();
        }
        catch (Exception e) when (e is FileNotFoundException or DirectoryNotFoundException)
        {
            rule = "there is no such file";
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            rule = "the file can not be read";
        }
        problems.Add(new Problem { File = file, Rule = rule });
        return null;
    }
}
