namespace EnergySim.Solar;

/// <summary>A point on the ground.</summary>
/// <param name="LatitudeDegrees">−90 to 90, north positive.</param>
/// <param name="LongitudeDegrees">−180 to 180, east positive.</param>
/// <param name="ElevationM">Metres above the sea.</param>
public readonly record struct Place(double LatitudeDegrees, double LongitudeDegrees, double ElevationM);
