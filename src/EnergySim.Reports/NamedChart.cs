using System.Text;
using EnergySim.Reports.Drawing;

namespace EnergySim.Reports;

/// <summary>A picture with a name that suits a file.</summary>
public sealed class NamedChart
{
    private readonly Picture _picture;

    internal NamedChart(string name, Picture picture) => (Name, _picture) = (name, picture);

    /// <summary>Lower-case words joined by hyphens, no ending.</summary>
    public string Name { get; }

    /// <summary>The picture as an SVG document with a title and a description that says its figures in words.</summary>
    public string Svg => SvgPainter.Document(_picture);

    internal Picture Picture => _picture;

    /// <summary>Writes the picture as PNG, <see cref="SavingsChart.PngScale"/> pixels for each of its own.</summary>
    public void WritePng(Stream output)
    {
        ArgumentNullException.ThrowIfNull(output);
        SkiaPainter.WritePng(_picture, SavingsChart.PngScale, output);
    }

    /// <summary>Writes <see cref="Svg"/> as UTF-8.</summary>
    public void WriteSvg(Stream output)
    {
        ArgumentNullException.ThrowIfNull(output);
        output.Write(Encoding.UTF8.GetBytes(Svg));
    }
}
