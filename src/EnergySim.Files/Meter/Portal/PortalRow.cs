namespace EnergySim.Files;

/// <summary>
/// One amount as it stands: its label on the file's own clock (minutes since 1970-01-01 00:00), the minute of the date it stands under (of which the label
/// is more than a day away where intervals are counted), the offset the stamp carries, what it is.
/// </summary>
internal readonly record struct PortalRow(int Line, long Label, long DayMinute, int? OffsetMinutes, int Minutes, double? Value, MeterUnit Unit, MeterFlow Flow, bool IsEstimated, short Meter)
{
    /// <summary>True when the label is the 24:00 of its date.</summary>
    public bool IsHour24 => Label - DayMinute == 1440;
}
