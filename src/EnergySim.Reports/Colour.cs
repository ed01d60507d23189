using System.Globalization;

namespace EnergySim.Reports;

/// <summary>An opaque colour of the sRGB space.</summary>
/// <param name="Red">0–255.</param>
/// <param name="Green">0–255.</param>
/// <param name="Blue">0–255.</param>
public readonly record struct Colour(byte Red, byte Green, byte Blue)
{
    /// <summary>As styles and pictures write it: <c>#322f37</c>.</summary>
    public string Hex => string.Create(CultureInfo.InvariantCulture, $"#{Red:x2}{Green:x2}{Blue:x2}");

    internal static Colour Of(int rgb) => new((byte)(rgb >> 16), (byte)(rgb >> 8), (byte)rgb);
}
