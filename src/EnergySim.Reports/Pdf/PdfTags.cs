using PdfSharp.Drawing;
using PdfSharp.Pdf;
using PdfSharp.UniversalAccessibility;

namespace EnergySim.Reports.Pdf;

/// <summary>
/// Says what each part of a page is, for those who have it read to them: headings, paragraphs, lists, tables with their heads, pictures with their
/// figures in words (ISO 32000-1:2008, 14.8). What only adorns is marked as that.
/// </summary>
internal sealed class PdfTags(PdfDocument document)
{
    private readonly StructureBuilder _builder = UAManager.ForDocument(document).StructureBuilder;

    /// <summary>A part that holds others.</summary>
    public void Group(PdfGroupingElementTag tag, Action inside)
    {
        _builder.BeginElement(tag);
        inside();
        _builder.End();
    }

    /// <summary>A part with text, or with parts of its own.</summary>
    public void Block(PdfBlockLevelElementTag tag, Action inside)
    {
        _builder.BeginElement(tag);
        inside();
        _builder.End();
    }

    /// <summary>A picture, told in words.</summary>
    public void Figure(string words, XRect place, Action inside)
    {
        _builder.BeginElement(PdfIllustrationElementTag.Figure, words, place);
        inside();
        _builder.End();
    }

    /// <summary>What is there for the eye alone, and what stands on every page.</summary>
    public void Adornment(Action inside)
    {
        _builder.BeginArtifact();
        inside();
        _builder.End();
    }
}
