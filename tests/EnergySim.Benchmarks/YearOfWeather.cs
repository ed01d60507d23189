using System.Globalization;
using System.Text;
using EnergySim.Files;
using EnergySim.Solar;
using NodaTime;

namespace EnergySim.Benchmarks;

/// <summary>A made-up weather file of a year in hours, and years fitted to it.</summary>
internal sealed class YearOfWeather : IDisposable
{
    private readonly string _path = Path.GetTempFileName();
    private readonly DailyClearness _sky;
    private readonly ClearnessModel _model;

    public YearOfWeather()
    {
        File.WriteAllText(_path, Text());
        _sky = DailyClearness.Of(Read());
        _model = ClearnessModel.Of(_sky);
    }

    public void Dispose() => File.Delete(_path);

    public WeatherSeries Read() => WeatherFile.Read(_path).Weather;

    public DarkSpells Darkest() => DarkSpells.Of(DailyClearness.Of(_sky.Sources));

    public SpellOdds Odds() => SpellOdds.Of(_model, 1, 100);

    public double HundredYears()
    {
        var years = new SyntheticYears(_model, 1, 2025);
        double sum = 0;
        for (int y = 0; y < 100; y++) sum += years.Year(y).GlobalWPerM2[4000];
        return sum;
    }

    private static string Text()
    {
        var track = new SunTrack(new Place(40, -105, 1600), Instant.FromUtc(2017, 1, 1, 7, 0), Duration.FromHours(1), 8760);
        var text = new StringBuilder("LOCATION,Town,XX,Nowhere,made up,0,40,-105,-7,1600\nDATA PERIODS,1,1,Data,Sunday, 1/ 1,12/31\n");
        for (int i = 0; i < 8760; i++)
        {
            LocalDate date = new LocalDate(2017, 1, 1).PlusDays(i / 24);
            double clearness = 0.1 + (0.6 * (i / 24 * 0.618034 % 1)), global = Math.Round(clearness * track.ExtraterrestrialHorizontalWPerM2(i));
            text.Append(CultureInfo.InvariantCulture,
                $"2017,{date.Month},{date.Day},{(i % 24) + 1},0,?9?9?9?9E0?9?9?9?9?9?9?9?9?9?9?9?9?9?9?9*9*9?9*9*9,12.5,4.0,50,85000,{track.ExtraterrestrialHorizontalWPerM2(i):0},1300,280,{global},{global / 2},{global / 2},0,0,0,0,180,2.5,5,5,16.1,3300,9,999999999,89,0.0310,0,88,0.330,999.0,99.0\n");
        }
        return text.ToString();
    }
}
