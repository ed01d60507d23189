using System.Globalization;
using EnergySim.Studies.Finance;
using EnergySim.Studies.Lifetime;
using Spectre.Console;

namespace EnergySim.Cli;

/// <summary>Prints years to come: the savings with their assumptions, indicators, ways to pay, bands, break-even, and the year table.</summary>
internal static class LifetimeText
{
    public static void Write(TextWriter output, LifetimeResult result, IReadOnlyList<string> repairs)
    {
        output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{result.Home} · {result.Terms.HorizonYears} years from {result.From:uuuu-MM-dd} · {result.Currency}, nominal"));
        output.WriteLine();
        foreach (Headline headline in result.Headlines) output.WriteLine(headline.Text);
        output.WriteLine();
        output.WriteLine("On these assumptions");
        foreach ((string name, string words) in result.Disclosure.All) output.WriteLine($"  {name}: {words}");
        output.WriteLine();
        Output.WriteTable(output, Summary(result));
        WriteWays(output, result);
        WriteBands(output, result);
        foreach (BreakEven even in result.BreakEvens) output.WriteLine(BreakEvenWords(even, result.Currency));
        output.WriteLine();
        foreach (LifetimeOffer offer in result.Offers)
        {
            output.WriteLine($"{offer.Name}, year by year (* new cells at the year's start)");
            Output.WriteTable(output, YearTable(result, offer));
        }
        output.WriteLine("Not in any band");
        Output.WriteNotes(output, result.NotQuantified);
        output.WriteLine();
        Output.WriteNotes(output, result.Notes.Concat(repairs));
    }

    private static Table Summary(LifetimeResult result)
    {
        Table table = Output.NewTable();
        table.AddColumn("bought for cash");
        foreach (LifetimeOffer offer in result.Offers) table.AddFigures(offer.Name);
        Row("price", o => o.Price is decimal p ? Whole((double)p) : "");
        Row("incentives at once", o => Whole((double)o.UpfrontIncentives));
        Row("simple payback, years", o => Years(o, i => i.SimplePaybackYears));
        Row("discounted payback, years", o => Years(o, i => i.DiscountedPaybackYears));
        Row("net present value", o => o.Indicators is { } i ? Whole(i.NetPresentValue) : "");
        Row("rate of return, nominal", o => Return(o.Indicators?.NominalReturns));
        Row("rate of return, real", o => Return(o.Indicators?.RealReturns));
        Row("savings to investment", o => Number(o.Indicators?.SavingsToInvestment, "0.00"));
        Row("cost of a kWh shifted", o => Number(o.Indicators?.CostPerKwhShifted, "0.000"));
        Row("warranty ends after year", o => o.WarrantyEnd is { } end ? string.Create(CultureInfo.InvariantCulture, $"{end.Year} ({LimitWord(end.Limit)})") : "");
        if (result.Offers.Any(o => o.BackupValue is not null))
            Row("your own figure for backup, apart", o => o.BackupValue is double own ? Whole(own) : "");
        return table;

        void Row(string name, Func<LifetimeOffer, string> cell) => table.AddTexts(result.Offers.Select(cell).Prepend(name));
        string Years(LifetimeOffer offer, Func<Indicators, double?> of) => offer.Indicators is not { } i ? ""
            : of(i) is double years ? years.ToString("0.0", CultureInfo.InvariantCulture)
            : string.Create(CultureInfo.InvariantCulture, $"not within {result.Terms.HorizonYears}");
    }

    private static void WriteWays(TextWriter output, LifetimeResult result)
    {
        if (result.Offers.All(o => o.Ways.Count < 2)) return;
        (LifetimeOffer Offer, FinancedOffer Way)[] ways = [.. result.Offers.SelectMany(o => o.Ways.Select(w => (o, w)))];
        Table table = Output.NewTable();
        table.AddColumn("ways to pay");
        foreach ((LifetimeOffer offer, FinancedOffer way) in ways) table.AddFigures($"{offer.Name}, {way.Way.ToString().ToLowerInvariant()}");
        Row("paid at the start", w => Whole((double)w.PaidAtStart));
        Row("lent", w => w.Financed > 0 ? Whole((double)w.Financed) : "");
        Row("  of which fees", w => w.Fees > 0 ? Whole((double)w.Fees) : "");
        Row("payment a month, at first", w => Number((double?)w.FirstMonthly, "#,0.00"));
        Row("payment a month, at last", w => Number((double?)w.LastMonthly, "#,0.00"));
        Row("rate a year, fees counted", w => Number(w.AnnualPercentageRate, "0.0 %"));
        Row("paid in all", w => Whole((double)w.TotalPaid));
        Row("left over in the first year", w => Whole((double)w.FirstYearNet));
        Row("net present value", w => Whole(w.NetPresentValue));
        Output.WriteTable(output, table);
        foreach (LifetimeOffer offer in result.Offers)
            foreach (FinancedOffer way in offer.Ways.Where(w => w.AtEnd.Length > 0))
                output.WriteLine($"{offer.Name}, {way.Way.ToString().ToLowerInvariant()}: {way.AtEnd}.");
        output.WriteLine();

        void Row(string name, Func<FinancedOffer, string> cell) => table.AddTexts(ways.Select(w => cell(w.Way)).Prepend(name));
    }

    private static void WriteBands(TextWriter output, LifetimeResult result)
    {
        Table table = Output.NewTable();
        table.AddColumn("present value, and what moves it");
        foreach (LifetimeOffer offer in result.Offers) table.AddFigures(offer.Name);
        LifetimeOffer[] priced = [.. result.Offers.Where(o => o.Bands.NetPresentValue is not null)];
        if (priced.Length == 0) return;
        table.AddTexts(result.Offers.Select(o => o.Bands.NetPresentValue is Band b ? $"{Whole(b.Low)} to {Whole(b.High)}" : "").Prepend("all together"));
        foreach (string cause in priced[0].Bands.NetPresentValue!.Causes.Select(c => c.Name))
            table.AddTexts(result.Offers.Select(o => o.Bands.NetPresentValue?.Causes.First(c => c.Name == cause) is { } c
                ? string.Create(CultureInfo.InvariantCulture, $"{Whole(c.Low)} to {Whole(c.High)} ({c.Share:0 %})") : "").Prepend(cause));
        Output.WriteTable(output, table);
    }

    private static string BreakEvenWords(BreakEven even, string currency)
    {
        string price = even.PaysUpToAddedPrice >= 0
            ? $"it pays up to {Whole((double)even.PaysUpToAddedPrice)}"
            : "it would not pay as a gift";
        string growth = even.PaysFromGrowth is double g
            ? string.Create(CultureInfo.InvariantCulture, $"energy prices that grow {g:0.0 %} a year or more")
            : "no growth of energy prices between −5 % and 25 % a year would change that";
        string window = !even.HasWindow ? "the plan has no dear window to lengthen"
            : even.PaysFromLongerWindowHours is int hours ? hours == 0 ? "no longer dear window is needed" : string.Create(CultureInfo.InvariantCulture, $"a dear window that begins {hours} h earlier")
            : "a dear window up to 6 h longer would not do";
        return string.Create(CultureInfo.InvariantCulture,
            $"{even.Second} over {even.First}: costs {Whole((double)even.AddedPrice)} {currency} more and adds {Whole(even.AddedNetPresentValue)} of present value ({Whole(even.Bands.NetPresentValue!.Low)} to {Whole(even.Bands.NetPresentValue.High)}). Where it begins to pay: {price}; {growth}; {window}.");
    }

    private static Table YearTable(LifetimeResult result, LifetimeOffer offer)
    {
        Table table = Output.NewTable();
        table.AddColumn("year");
        foreach (string header in (string[])["holds", "cycles", "shifted, kWh", "bill as it is", "bill", "saved", "incentives", "upkeep", "replaced", "net", "net in all"]) table.AddFigures(header);
        decimal sum = offer.UpfrontIncentives - (offer.Price ?? 0);
        foreach (LifetimeYear y in offer.Years)
        {
            sum += y.NetCash;
            table.AddTexts(
                string.Create(CultureInfo.InvariantCulture, $"{y.Year} {y.CalendarYear}"), y.CapacityFraction.ToString("0 %", CultureInfo.InvariantCulture) + (y.IsReplaced ? "*" : ""),
                Number(y.FullCycles, "0"), Number(y.ShiftedKwh, "#,0"), Whole((double)result.AsItIs[y.Year - 1].Bill), Whole((double)y.Bill), Whole((double)y.Saving),
                Whole((double)y.IncentivePaid), Whole((double)y.Upkeep), Whole((double)(y.Replacements - y.ResidualValue)), Whole((double)y.NetCash), offer.Price is null ? "" : Whole((double)sum));
        }
        return table;
    }

    private static string LimitWord(WarrantyLimit limit) => limit switch
    {
        WarrantyLimit.Years => "years",
        WarrantyLimit.Throughput => "energy given",
        _ => "capacity: a claim",
    };

    private static string Return(RatesOfReturn? rates) => rates is null ? ""
        : rates.Only is { } only ? only.Fraction.ToString("0.0 %", CultureInfo.InvariantCulture)
        : rates.Fractions.Count == 0 ? "none" : rates.Fractions.Count > 1 ? "several" : "none told";

    private static string Number(double? value, string form) => value?.ToString(form, CultureInfo.InvariantCulture) ?? "";

    private static string Whole(double amount) => amount.ToString("#,0;−#,0;0", CultureInfo.InvariantCulture);
}
