using System.Globalization;
using EnergySim.Engine;
using EnergySim.Profiles;
using EnergySim.Solar;
using EnergySim.Studies.Days;
using EnergySim.Tariffs;

namespace EnergySim.Studies.Solar;

/// <summary>Works out a <see cref="SolarYield"/>.</summary>
public static class SolarStudy
{
    private const int MadeUpYears = 100;

    private const ulong Seed = 1;

    /// <summary>The yield of a home's roof.</summary>
    /// <param name="home">The home.</param>
    /// <exception cref="ArgumentException">The home has no solar, or an offer cannot be run.</exception>
    public static SolarYield Of(Home home)
    {
        ArgumentNullException.ThrowIfNull(home);
        if (home.Solar is not HomeSolar solar) throw new ArgumentException($"{home.Name} has no solar: the home file gives neither roof planes nor a solar profile.", nameof(home));
        Profile total = solar.Profile;
        DailyClearness? sky = solar.Modelled is ModelledRoof modelled ? DailyClearness.Of(modelled.Weather) : null;
        return new SolarYield
        {
            Home = home.Name,
            From = total.Axis.LocalDateOf(0),
            To = total.Axis.LocalDateOf(total.Axis.Count - 1),
            IsDc = solar.IsDc,
            Planes = solar.Modelled is ModelledRoof roof
                ? [.. roof.Output.Planes.Select(p => new PlaneYield { Name = p.Plane.Name, Plane = p.Plane, KwhByMonth = ByMonth(p.Dc), IncidentKwhPerM2ByMonth = ByMonth(p.IncidentKwPerM2) })]
                : [new PlaneYield { Name = "solar profile", Plane = null, KwhByMonth = ByMonth(total), IncidentKwhPerM2ByMonth = [] }],
            KwhByMonth = ByMonth(total),
            RatedKw = solar.Modelled?.Roof.RatedKw,
            KwByMonthAndHour = HourMeans.Of(total.Axis, total.Kw),
            Uses = UsesOf(home),
            DarkSpells = sky is null ? null : DarkSpells.Of(sky),
            SpellOdds = sky is null ? null : SpellOdds.Of(ClearnessModel.Of(sky), Seed, MadeUpYears),
            Notes = NotesOf(home, solar),
        };
    }

    private static double[] ByMonth(Profile profile) => HourMeans.KwhByMonth(profile.Axis, profile.Kw);

    private static SolarUse[] UsesOf(Home home)
    {
        var calendar = new TariffCalendar(home.Tariff, home.Load.Axis, home.Account, home.Load.Kw);
        return [.. Installation.Of(home, calendar).Select(installation =>
        {
            RunSums sums = installation.Run.Sums();
            return new SolarUse(
                installation.Name,
                installation.ClippedKwh + sums.Kwh(LedgerColumn.ClippedInputKw),
                sums.Kwh(LedgerColumn.CurtailedDcKw),
                sums.Kwh(LedgerColumn.CurtailedAcKw));
        })];
    }

    private static List<string> NotesOf(Home home, HomeSolar solar)
    {
        var notes = new List<string>();
        if (home.Note.Length > 0) notes.Add(home.Note);
        int days = NodaTime.Period.DaysBetween(solar.Profile.Axis.LocalDateOf(0), solar.Profile.Axis.LocalDateOf(solar.Profile.Axis.Count - 1)) + 1;
        if (days is not (365 or 366)) notes.Add(string.Create(CultureInfo.InvariantCulture, $"The data span {days} days, not a year: all figures are for that span and are not scaled up."));
        if (solar.Modelled is ModelledRoof roof)
        {
            notes.Add($"Worked out from the weather of {roof.Weather.Source} with the {(roof.Roof.SkyModel == SkyModel.Perez ? "sky of Perez (1990)" : "even sky of Liu and Jordan (1963)")}; azimuths run from north clockwise. Measured roofs come out within some per cent a year of such models; single hours scatter widely.");
            if (roof.Weather.WindMPerS is null) notes.Add("The weather has no wind: 1 m/s was assumed, which errs on the warm side.");
            if (roof.Weather.AlbedoFraction is null && roof.Roof.AlbedoFraction is null) notes.Add("Neither home nor weather gives the ground's albedo: 0.2 was assumed.");
        }
        return notes;
    }
}
