using EnergySim.Files;
using EnergySim.TestData;

namespace EnergySim.Studies.Tests;

/// <summary>The bundled demo home, read once.</summary>
internal static class Demo
{
    private static readonly Lazy<Home> s_home = new(() => HomeFile.Read(HomePath).Home);

    public static string HomePath => Path.Combine(SharedData.RepositoryRoot, "profiles", "demo-home.yaml");

    public static Home Home => s_home.Value;

    public static Home OnFlat => Home with { Tariff = TariffFile.Read(Path.Combine(SharedData.RepositoryRoot, "tariffs", "marrow-creek-flat.yaml")) };
}
