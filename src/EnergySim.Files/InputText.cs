namespace EnergySim.Files;

/// <summary>Opens input files.</summary>
internal static class InputText
{
    /// <summary>The text of a file; null, with a problem, when it can not be read.</summary>
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
            return File.ReadAllText(file);
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
