namespace EnergySim.Solar;

/// <summary>The number below which a standard normal variable lies with a given chance.</summary>
internal static class NormalScore
{
    private static ReadOnlySpan<double> CentreOver =>
    [
        3.3871328727963666080, 133.14166789178437745, 1971.5909503065514427, 13731.693765509461125,
        45921.953931549871457, 67265.770927008700853, 33430.575583588128105, 2509.0809287301226727,
    ];

    private static ReadOnlySpan<double> CentreUnder =>
        [1, 42.313330701600911252, 687.18700749205790830, 5394.1960214247511077, 21213.794301586595867, 39307.895800092710610, 28729.085735721942674, 5226.4952788528545610];

    private static ReadOnlySpan<double> TailOver =>
    [
        1.42343711074968357734, 4.63033784615654529590, 5.76949722146069140550, 3.64784832476320460504,
        1.27045825245236838258, 0.241780725177450611770, 0.0227238449892691845833, 0.000774545014278341407640,
    ];

    private static ReadOnlySpan<double> TailUnder =>
    [
        1, 2.05319162663775882187, 1.67638483018380384940, 0.689767334985100004550,
        0.148103976427480074590, 0.0151986665636164571966, 0.000547593808499534494600, 1.05075007164441684324e-9,
    ];

    private static ReadOnlySpan<double> FarOver =>
    [
        6.65790464350110377720, 5.46378491116411436990, 1.78482653991729133580, 0.296560571828504891230,
        0.0265321895265761230930, 0.00124266094738807843860, 2.71155556874348757815e-5, 2.01033439929228813265e-7,
    ];

    private static ReadOnlySpan<double> FarUnder =>
    [
        1, 0.599832206555887937690, 0.136929880922735805310, 0.0148753612908506148525,
        0.000786869131145613259100, 1.84631831751005468180e-5, 1.42151175831644588870e-7, 2.04426310338993978564e-15,
    ];

    /// <summary>The score of a chance between 0 and 1, both excluded. Source: Wichura, Algorithm AS 241 (PPND16), Applied Statistics 37 (1988), written down from memory; exact to 1e-15.</summary>
    public static double Of(double chance)
    {
        double q = chance - 0.5;
        if (Math.Abs(q) <= 0.425)
        {
            double near = 0.180625 - (q * q);
            return q * Polynomial(CentreOver, near) / Polynomial(CentreUnder, near);
        }
        double r = Math.Sqrt(-Math.Log(q < 0 ? chance : 1 - chance));
        double score = r <= 5
            ? Polynomial(TailOver, r - 1.6) / Polynomial(TailUnder, r - 1.6)
            : Polynomial(FarOver, r - 5) / Polynomial(FarUnder, r - 5);
        return q < 0 ? -score : score;
    }

    private static double Polynomial(ReadOnlySpan<double> terms, double x)
    {
        double sum = 0;
        for (int i = terms.Length - 1; i >= 0; i--) sum = (sum * x) + terms[i];
        return sum;
    }
}
