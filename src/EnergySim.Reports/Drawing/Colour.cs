using System.Globalization;

namespace EnergySim.Reports.Drawing;

/// <summary>An opaque colour of the sRGB space.</summary>
/// <param name="Red">0–255.</param>
/// <param name="Green">0–255.</param>
/// <param name="Blue">0–255.</param>
public readonly record struct Colour(byte Red, byte Green, byte Blue)
{
    /// <summary>As styles and pictures write it: <c>#322f37</c>.</summary>
    public string Hex => string.Create(CultureInfo.InvariantCulture, $"#{Red:x2}{Green:x2}{Blue:x2}");

    /// <summary>Relative luminance, 0 (black) to 1 (white): IEC 61966-2-1 (sRGB), as W3C's WCAG 2.1 uses it.</summary>
    public double Luminance
    {
        get
        {
            static double Linear(byte part) => part / 255.0 is var v && v <= 0.04045 ? v / 12.92 : Math.Pow((v + 0.055) / 1.055, 2.4);
            return (0.2126 * Linear(Red)) + (0.7152 * Linear(Green)) + (0.0722 * Linear(Blue));
        }
    }

    internal static Colour Of(int rgb) => new((byte)(rgb >> 16), (byte)(rgb >> 8), (byte)rgb);
}
