namespace EnergySim.Files;

/// <summary>What a series of readings is, as the file says (NAESB REQ.21, ReadingType). Null = not said.</summary>
internal sealed class EspiReadingType
{
    public int? AccumulationBehaviour { get; set; }

    public int? Commodity { get; set; }

    public int? DataQualifier { get; set; }

    public int? DefaultQuality { get; set; }

    public int? FlowDirection { get; set; }

    public int? IntervalLength { get; set; }

    public int PowerOfTenMultiplier { get; set; }

    public int? Uom { get; set; }

    /// <summary>Why the readings can not be used as energy or mean power; null when they can.</summary>
    public string? Unusable => this switch
    {
        { Uom: null } => "their unit (uom) is not stated",
        { Uom: not (38 or 72) } => $"their unit (uom {Uom}) is neither Wh nor W",
        { AccumulationBehaviour: 1 or 2 or 3 or 13 } =>
            $"accumulationBehaviour {AccumulationBehaviour} is a register that only counts up, not the energy of each interval; ask the utility for interval data",
        { AccumulationBehaviour: 14 } => "accumulationBehaviour 14 is a quantity within bounds, not the energy of each interval",
        { Uom: 38, DataQualifier: 8 or 9 } => "they are the highest or lowest power of an interval, not its mean",
        { FlowDirection: 20 } => "flowDirection 20 adds both directions up",
        { FlowDirection: not (null or 0 or 1 or 4 or 19) } => $"flowDirection {FlowDirection} is neither delivered, received nor net",
        _ => null,
    };

    public bool IsRegister => AccumulationBehaviour is 1 or 2 or 3 or 13;

    public MeterFlow Flow => FlowDirection switch { 4 => MeterFlow.Net, 19 => MeterFlow.Export, _ => MeterFlow.Import };

    /// <summary>kWh of one unit of the value over so many seconds.</summary>
    public double KwhPerUnit(int seconds) => Math.Pow(10, PowerOfTenMultiplier) / 1000 * (Uom == 38 ? seconds / 3600.0 : 1);
}
