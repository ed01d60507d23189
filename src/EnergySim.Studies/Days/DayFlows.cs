using EnergySim.Engine;
using NodaTime;

namespace EnergySim.Studies.Days;

/// <summary>The powers of one day of one column, on the local clock: a day of the data, or the mean of many.</summary>
public sealed record DayFlows
{
    /// <summary>The home.</summary>
    public required string Home { get; init; }

    /// <summary>The home file's note; empty = none.</summary>
    public required string Note { get; init; }

    /// <summary>The plan.</summary>
    public required string Tariff { get; init; }

    /// <summary>ISO 4217 code.</summary>
    public required string Currency { get; init; }

    /// <summary>The column: as it is, or the offer.</summary>
    public required string Column { get; init; }

    /// <summary>Number of battery units; 0 as it is.</summary>
    public required int BatteryUnits { get; init; }

    /// <summary>The day; null = the mean of several.</summary>
    public required LocalDate? Date { get; init; }

    /// <summary>The month, 1–12, whose days are meant; null = of all months, or one day.</summary>
    public required int? Month { get; init; }

    /// <summary>Number of days behind the figures.</summary>
    public required int DayCount { get; init; }

    /// <summary>First and last of these days.</summary>
    public required (LocalDate From, LocalDate To) Span { get; init; }

    /// <summary>Length of a moment, h.</summary>
    public required double StepHours { get; init; }

    /// <summary>Lowest energy that the cells may hold, kWh.</summary>
    public required double LowestKwh { get; init; }

    /// <summary>Highest energy that the cells may hold, kWh; 0 = no battery.</summary>
    public required double HighestKwh { get; init; }

    /// <summary>In the cells before the first moment, kWh.</summary>
    public required double StartKwh { get; init; }

    /// <summary>The moments in order: a day has 24 hours of them, 23 or 25 where the clock changes; a mean has 24.</summary>
    public required IReadOnlyList<DayMoment> Moments { get; init; }

    /// <summary>What the home uses with the plant's own consumption, kWh.</summary>
    public double UseKwh => Kwh(m => m.UseKw);

    /// <summary>Of that, straight from the sun, kWh.</summary>
    public double SunToHomeKwh => Kwh(m => m.SunToHomeKw);

    /// <summary>Of that, from the battery, kWh.</summary>
    public double BatteryToHomeKwh => Kwh(m => m.BatteryToHomeKw);

    /// <summary>Of that, bought, kWh.</summary>
    public double GridToHomeKwh => Kwh(m => m.GridToHomeKw);

    /// <summary>Into the cells, kWh at their terminals.</summary>
    public double IntoBatteryKwh => Kwh(m => m.IntoBatteryKw);

    /// <summary>Sold, kWh.</summary>
    public double SoldKwh => Kwh(m => m.SoldKw);

    /// <summary>What the panels give, kWh.</summary>
    public double SunKwh => Kwh(m => m.SunKw);

    private double Kwh(Func<DayMoment, double> kw) => Moments.Sum(kw) * StepHours;
}

/// <summary>Mean powers of one step of the day, kW ≥ 0, AC but where said.</summary>
public sealed record DayMoment
{
    /// <summary>Local start with its offset; null = the mean of several days.</summary>
    public required OffsetDateTime? At { get; init; }

    /// <summary>Its length, h.</summary>
    public required double Hours { get; init; }

    /// <summary>Local minute of the day at its start, 0–1439.</summary>
    public required int LocalMinute { get; init; }

    /// <summary>What the home uses, with the plant's own consumption; the three that follow sum to it.</summary>
    public required double UseKw { get; init; }

    /// <summary>Straight from the sun to the home.</summary>
    public required double SunToHomeKw { get; init; }

    /// <summary>From the battery to the home.</summary>
    public required double BatteryToHomeKw { get; init; }

    /// <summary>From the grid to the home.</summary>
    public required double GridToHomeKw { get; init; }

    /// <summary>Into the cells, at their terminals, from sun and grid.</summary>
    public required double IntoBatteryKw { get; init; }

    /// <summary>Of that, from the sun.</summary>
    public required double SunToBatteryKw { get; init; }

    /// <summary>Of that, from the grid.</summary>
    public required double GridToBatteryKw { get; init; }

    /// <summary>Sold at the meter, from sun and battery.</summary>
    public required double SoldKw { get; init; }

    /// <summary>The sun's part of what is sold.</summary>
    public required double SunSoldKw { get; init; }

    /// <summary>The battery's part of what is sold.</summary>
    public required double BatterySoldKw { get; init; }

    /// <summary>Bought at the meter.</summary>
    public required double BoughtKw { get; init; }

    /// <summary>What the panels give: AC behind an inverter of their own, DC at a battery's inputs.</summary>
    public required double SunKw { get; init; }

    /// <summary>What of it is not used, DC and AC together.</summary>
    public required double SunLostKw { get; init; }

    /// <summary>In the cells at its end, kWh.</summary>
    public required double StoredKwh { get; init; }

    /// <summary>Period of the plan at its start; null = not the same on all days.</summary>
    public required string? Period { get; init; }

    /// <summary>Money for one more kWh bought, as far as the rate sheet says it ahead; of several days the mean.</summary>
    public required double BuyPerKwh { get; init; }

    /// <summary>The limits that bound in it, with the minutes in which they did, in the order in which they act; of several days none is told.</summary>
    public required IReadOnlyList<(Limit Limit, int Minutes)> Limits { get; init; }
}
