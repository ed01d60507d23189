namespace EnergySim.Studies.Sweeps;

/// <summary>The runs that variants on the same series ask for, each made once however many ask for it.</summary>
/// <param name="series">The series.</param>
internal sealed class SweptRuns(SweepSeries series)
{
    private readonly Dictionary<RunKey, SweptRun> _runs = [];

    /// <summary>Asks for the runs of a home; a sentence where one can not be made.</summary>
    public string? Add(Home home)
    {
        string name = "";
        try
        {
            Add(null, home.Service);
            foreach (Offer offer in home.Offers)
            {
                name = offer.Name + ": ";
                Add(offer, home.Service);
            }
            return null;
        }
        catch (ArgumentException fault)
        {
            return name + SweepStudy.Sentence(fault);
        }
    }

    /// <summary>Makes all that was asked for.</summary>
    public void Run(int cores) => series.Run([.. _runs.Values], cores);

    /// <summary>A run that was asked for.</summary>
    public SweptRun Of(Offer? offer, Service service) => _runs[RunKey.Of(offer, service)];

    private void Add(Offer? offer, Service service)
    {
        var key = RunKey.Of(offer, service);
        if (!_runs.ContainsKey(key)) _runs.Add(key, series.RunOf(offer, service));
    }
}
