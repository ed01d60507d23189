using EnergySim.Cli;

namespace EnergySim.Web.Tests;

public class ServeVerbTests
{
    [Fact]
    public void Serve_ForASecond_PrintsTheAddressAndEnds()
    {
        string folder = Directory.CreateTempSubdirectory("energysim-verb-").FullName;
        using var output = new StringWriter();
        using var errors = new StringWriter();
        Assert.Equal(Commands.Done, Commands.Invoke(["serve", folder, "--port", "0", "--seconds", "1"], output, errors));
        Assert.Contains("The page: http://127.0.0.1:", output.ToString(), StringComparison.Ordinal);
        Assert.Empty(errors.ToString());
        Directory.Delete(folder, recursive: true);
    }

    [Fact]
    public void Serve_ToOtherMachines_WarnsAndGivesAToken()
    {
        string folder = Directory.CreateTempSubdirectory("energysim-verb-").FullName;
        using var output = new StringWriter();
        using var errors = new StringWriter();
        Assert.Equal(Commands.Done, Commands.Invoke(["serve", folder, "--port", "0", "--seconds", "1", "--address", "0.0.0.0"], output, errors));
        Assert.Matches("token=[0-9a-f]{32}", output.ToString());
        Assert.Contains("Warning: other machines", errors.ToString(), StringComparison.Ordinal);
        Directory.Delete(folder, recursive: true);
    }

    [Theory]
    [InlineData("--address", "everywhere", "is no address")]
    [InlineData("--port", "70000", "--port")]
    public void Serve_WithAWrongWord_SaysSo(string option, string value, string sentence)
    {
        using var output = new StringWriter();
        using var errors = new StringWriter();
        Assert.Equal(Commands.BadInput, Commands.Invoke(["serve", option, value], output, errors));
        Assert.Contains(sentence, errors.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void Serve_OfAFolderThatIsNotThere_SaysSo()
    {
        using var output = new StringWriter();
        using var errors = new StringWriter();
        Assert.Equal(Commands.BadInput, Commands.Invoke(["serve", "no-such-folder", "--port", "0"], output, errors));
        Assert.Contains("There is no folder \"no-such-folder\"", errors.ToString(), StringComparison.Ordinal);
    }
}
