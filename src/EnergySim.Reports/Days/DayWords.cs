using System.Globalization;
using EnergySim.Reports.Drawing;
using EnergySim.Studies.Days;
using NodaTime;
using NodaTime.Text;

namespace EnergySim.Reports.Days;

/// <summary>Everything the picture of a day says.</summary>
internal sealed class DayWords(DayFlows day)
{
    private static readonly LocalDatePattern s_date = LocalDatePattern.CreateWithInvariantCulture("d MMM uuuu");

    public Money Money { get; } = new(day.Currency);

    public string Title => $"{Which} · {Lettering.Clean(day.Home)}";

    /// <summary>The day's balance in a sentence or two.</summary>
    public string Lead
    {
        get
        {
            string words = $"{Lettering.Clean(day.Column)}: uses {Kwh(day.UseKwh)} kWh, {Kwh(day.GridToHomeKwh)} from the grid";
            if (day.SunKwh > 0) words += $", {Kwh(day.SunToHomeKwh)} straight from the sun";
            if (day.HighestKwh > 0) words += $", {Kwh(day.BatteryToHomeKwh)} from the battery";
            return words + (day.SoldKwh > 0 ? $"; {Kwh(day.SoldKwh)} sold." : ".");
        }
    }

    public string Up => day.HighestKwh > 0 || day.SoldKwh > 0 ? "kW · above zero: serves the home · below: stored or sold" : "kW";

    public IReadOnlyList<LegendLine> Legend
    {
        get
        {
            var lines = new List<LegendLine>();
            if (day.SunKwh > 0) lines.Add(new LegendLine("sun", Palette.SolarFlow, IsArea: true));
            if (day.HighestKwh > 0) lines.Add(new LegendLine("battery", Palette.BatteryFlow, IsArea: true));
            lines.Add(new LegendLine(day.SoldKwh > 0 ? "grid: bought, sold" : "grid", Palette.GridFlow, IsArea: true));
            lines.Add(new LegendLine("the home uses", Palette.LoadFlow));
            if (day.SunKwh > 0) lines.Add(new LegendLine("the panels give", Palette.SolarFlow));
            return lines;
        }
    }

    public IReadOnlyList<string> Footer
    {
        get
        {
            string days = day.Date is null
                ? string.Create(CultureInfo.InvariantCulture, $"The mean of {day.DayCount:#,0} days, {s_date.Format(day.Span.From)} to {s_date.Format(day.Span.To)}")
                : string.Create(CultureInfo.InvariantCulture, $"Means of {day.StepHours * 60:0} minutes");
            string tariff = $"{days}; tariff {Lettering.Clean(day.Tariff)}.";
            return day.Note.Length > 0 ? [tariff, Lettering.Clean(day.Note)] : [tariff];
        }
    }

    /// <summary>What a stretch of the price band says, most words first.</summary>
    public IEnumerable<string> Price(DayMoment moment)
    {
        string price = Money.PerKwh((decimal)moment.BuyPerKwh);
        if (moment.Period is string period) yield return $"{Lettering.Clean(period)} {price}";
        yield return price;
    }

    /// <summary>Every figure, in words.</summary>
    public string Description
    {
        get
        {
            var words = new List<string> { Lead };
            if (day.HighestKwh > 0) words.Add($"Into the battery {Kwh(day.IntoBatteryKwh)} kWh; in it {Kwh(day.StartKwh)} kWh at first, {Kwh(day.Moments[^1].StoredKwh)} at last, of {Kwh(day.HighestKwh)}.");
            if (day.SunKwh > 0) words.Add($"The panels give {Kwh(day.SunKwh)} kWh.");
            for (int i = 0; i < day.Moments.Count; i += Math.Max(1, (int)Math.Round(1 / day.StepHours))) words.Add(Moment(day.Moments[i]));
            return Lettering.Clean(string.Join(' ', words.Concat(Footer)));
        }
    }

    private string Moment(DayMoment m)
    {
        string flows = string.Create(CultureInfo.InvariantCulture,
            $"uses {m.UseKw:0.00} kW, sun {m.SunKw:0.00}, from the battery {m.BatteryToHomeKw:0.00}, from the grid {m.GridToHomeKw:0.00}");
        string rest = string.Create(CultureInfo.InvariantCulture, $"into the battery {m.IntoBatteryKw:0.00}, sold {m.SoldKw:0.00}; stored {m.StoredKwh:0.0} kWh");
        string price = string.Create(CultureInfo.InvariantCulture, $"a kWh {m.BuyPerKwh:0.000} {day.Currency}{(m.Period is null ? "" : $" ({m.Period})")}");
        return string.Create(CultureInfo.InvariantCulture, $"{m.LocalMinute / 60:00}:{m.LocalMinute % 60:00}: {flows}, {rest}; {price}.");
    }

    private string Which => day switch
    {
        { Date: LocalDate date } => s_date.Format(date),
        { Month: int month } => $"An average day in {CultureInfo.InvariantCulture.DateTimeFormat.GetMonthName(month)}",
        _ => "An average day",
    };

    private static string Kwh(double kwh) => kwh.ToString("#,0.0", CultureInfo.InvariantCulture);
}
