namespace EnergySim.Wiring;

/// <summary>How something stands to a rule. None of these words replaces the judgement of a licensed electrician and the local authority.</summary>
public enum Standing
{
    /// <summary>The arithmetic stays within the rule.</summary>
    Within,

    /// <summary>The arithmetic goes beyond the rule.</summary>
    Beyond,

    /// <summary>The edition does not have the rule.</summary>
    NotInEdition,

    /// <summary>A fact is missing.</summary>
    Unknown,
}

/// <summary>One rule asked, with its section and its arithmetic.</summary>
/// <param name="Rule">The rule.</param>
/// <param name="Section">Section of the edition; null = the edition has none, or it is no matter of the code.</param>
/// <param name="Standing">The outcome.</param>
/// <param name="Arithmetic">The numbers, as one would write them on the plan; or what is missing.</param>
public sealed record Verdict(WiringRule Rule, string? Section, Standing Standing, string Arithmetic)
{
    /// <summary>A comparison: within when the left side is not above the right.</summary>
    internal static Verdict Of(CodeEdition edition, WiringRule rule, double left, double right, string arithmetic)
    {
        if (edition.SectionOf(rule) is not string section) return Absent(edition, rule);
        return new Verdict(rule, section, left <= right + BreakerSizes.ToleranceAmps ? Standing.Within : Standing.Beyond, arithmetic);
    }

    internal static Verdict Missing(CodeEdition edition, WiringRule rule, string what) => new(rule, edition.SectionOf(rule), Standing.Unknown, what);

    internal static Verdict Absent(CodeEdition edition, WiringRule rule) =>
        new(rule, null, Standing.NotInEdition, string.Create(System.Globalization.CultureInfo.InvariantCulture, $"the {edition.Year} edition has no such rule; ask the local authority whether it takes a later one"));
}
