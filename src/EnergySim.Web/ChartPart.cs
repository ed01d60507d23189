using System.Text;
using System.Xml.Linq;

namespace EnergySim.Web;

/// <summary>Makes of a chart's SVG document a part of the page: letters come from the page's font, names do not clash, nothing is styled inline.</summary>
internal static class ChartPart
{
    private static readonly XNamespace s_svg = "http://www.w3.org/2000/svg";

    /// <param name="document">The SVG document.</param>
    /// <param name="prefix">Goes before every name in it.</param>
    public static string Of(string document, string prefix)
    {
        XElement root = XElement.Parse(document);
        root.DescendantNodes().OfType<XComment>().Remove();
        root.Descendants(s_svg + "style").Remove();
        // The size is the page's matter; the viewBox keeps the shape.
        root.Attribute("width")?.Remove();
        root.Attribute("height")?.Remove();
        foreach (XAttribute attribute in root.DescendantsAndSelf().Attributes())
        {
            if (attribute.Name == "id") attribute.Value = $"{prefix}-{attribute.Value}";
            else if (attribute.Name == "aria-labelledby") attribute.Value = string.Join(' ', attribute.Value.Split(' ').Select(v => $"{prefix}-{v}"));
            else attribute.Value = attribute.Value.Replace("url(#", $"url(#{prefix}-", StringComparison.Ordinal);
        }
        return root.ToString(SaveOptions.DisableFormatting);
    }

    /// <summary>The same as bytes.</summary>
    public static byte[] BytesOf(string document, string prefix) => Encoding.UTF8.GetBytes(Of(document, prefix));
}
