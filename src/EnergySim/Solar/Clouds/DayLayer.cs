using NodaTime;

namespace EnergySim.Solar;

/// <summary>Lays recorded days on other dates, each interval by its own clearness, so that sunrise, sunset and season are those of the new date.</summary>
internal sealed class DayLayer
{
    // With less sun above the air than this an interval's clearness means nothing.
    private const double LeastAboveAirWPerM2 = 10;
    private readonly DailyClearness _sky;
    private readonly SunTrack[] _tracks;

    public DayLayer(DailyClearness sky)
    {
        _sky = sky;
        _tracks = [.. sky.Sources.Select(s => new SunTrack(s.Place, s.Start, s.Step, s.Count))];
        PerDay = (int)Math.Round(1 / sky.Sources[0].Step.TotalDays);
        HasWind = sky.Sources.All(s => s.WindMPerS is not null);
        HasAlbedo = sky.Sources.All(s => s.AlbedoFraction is not null);
        HasSnow = sky.Sources.All(s => s.SnowCm is not null);
        if (sky.Sources.Any(s => s.Step != sky.Sources[0].Step)) throw new ArgumentException("The years have intervals of different length.", nameof(sky));
    }

    public int PerDay { get; }

    public bool HasWind { get; }

    public bool HasAlbedo { get; }

    public bool HasSnow { get; }

    /// <summary>An empty series of whole days from a date on, on the clock and grid of the recorded ones.</summary>
    public WeatherSeries Empty(LocalDate first, int days, string source)
    {
        WeatherSeries like = _sky.Sources[0];
        ClearnessDay day = _sky.Days[0];
        Duration lead = like.Start + (like.Step * day.FirstInterval) - day.Date.AtMidnight().WithOffset(like.StandardOffset).ToInstant();
        int count = days * PerDay;
        return like with
        {
            Source = source,
            Start = first.AtMidnight().WithOffset(like.StandardOffset).ToInstant() + lead,
            IsTypicalYear = _sky.IsTypicalOnly,
            GlobalWPerM2 = new double[count],
            DirectNormalWPerM2 = new double[count],
            DiffuseWPerM2 = new double[count],
            AirCelsius = new double[count],
            WindMPerS = HasWind ? new double[count] : null,
            AlbedoFraction = HasAlbedo ? new double[count] : null,
            SnowCm = HasSnow ? new double[count] : null,
        };
    }

    /// <summary>Lays a recorded day into a series.</summary>
    /// <param name="day">The day.</param>
    /// <param name="clearness">The clearness that it shall have.</param>
    /// <param name="into">The series.</param>
    /// <param name="at">Its interval at which the day begins.</param>
    /// <param name="track">The sun over the series.</param>
    public void Lay(in ClearnessDay day, double clearness, WeatherSeries into, int at, SunTrack track)
    {
        WeatherSeries from = _sky.Sources[day.Source];
        SunTrack recorded = _tracks[day.Source];
        double above = 0, laid = 0;
        for (int i = 0; i < PerDay; i++)
        {
            int source = day.FirstInterval + i, target = at + i;
            double then = recorded.ExtraterrestrialHorizontalWPerM2(source), now = track.ExtraterrestrialHorizontalWPerM2(target);
            bool isKnown = then >= LeastAboveAirWPerM2;
            double ratio = isKnown ? now / then : 0;
            above += now;
            into.GlobalWPerM2[target] = isKnown ? from.GlobalWPerM2[source] * ratio : clearness * now;
            into.DiffuseWPerM2[target] = isKnown ? from.DiffuseWPerM2[source] * ratio : clearness * now;
            into.DirectNormalWPerM2[target] = isKnown && now > 0 ? from.DirectNormalWPerM2[source] : 0;
            into.AirCelsius[target] = from.AirCelsius[source];
            if (HasWind) into.WindMPerS![target] = from.WindMPerS![source];
            if (HasAlbedo) into.AlbedoFraction![target] = from.AlbedoFraction![source];
            if (HasSnow) into.SnowCm![target] = from.SnowCm![source];
            laid += into.GlobalWPerM2[target];
        }
        if (laid <= 0) return;
        double scale = clearness * above / laid;
        for (int i = at; i < at + PerDay; i++)
        {
            into.GlobalWPerM2[i] *= scale;
            into.DiffuseWPerM2[i] *= scale;
            into.DirectNormalWPerM2[i] = Math.Min(into.DirectNormalWPerM2[i] * scale, track.ExtraterrestrialNormalWPerM2[i]);
        }
    }
}
