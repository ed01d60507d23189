using System.Globalization;
using System.Xml;

namespace EnergySim.Files;

/// <summary>Reads an ESPI file (NAESB REQ.21 in Atom) as a stream. Nothing that it refers to is opened, and nothing in it is expanded.</summary>
internal sealed class EspiFeedReader(XmlReader xml, EspiXml parts)
{
    private const int PieceLength = 2048;

    private readonly EspiFeed _feed = new();
    private string? _self, _up;
    private List<string> _related = [];
    private readonly List<EspiReading> _readings = [];
    private List<EspiReading[]> _pieces = [];
    private EspiReadingType? _type;
    private (int? Kind, bool IsPoint) _point;
    private bool _isMeterReading;
    private string _title = "";

    /// <summary>Reads a file.</summary>
    /// <exception cref="ProblemsException">It is no ESPI file, or it is broken.</exception>
    public static EspiFeed Read(TextReader text, string file)
    {
        var problems = new ProblemList();
        var settings = new XmlReaderSettings
        {
            DtdProcessing = DtdProcessing.Prohibit,
            XmlResolver = null,
            MaxCharactersFromEntities = 1024,
            MaxCharactersInDocument = 2_000_000_000,
            IgnoreComments = true,
            IgnoreProcessingInstructions = true,
            IgnoreWhitespace = true,
        };
        try
        {
            using var xml = XmlReader.Create(text, settings);
            EspiFeed feed = new EspiFeedReader(xml, new EspiXml(xml, file, problems)).Read();
            if (!feed.IsEspi) problems.Add(new Problem { File = file, Rule = "the file is XML, but holds nothing of the energy-usage standard (NAESB REQ.21 ESPI)" });
            problems.ThrowIfAny();
            return feed;
        }
        catch (XmlException fault)
        {
            string rule = fault.Message.Contains("DTD", StringComparison.Ordinal)
                ? "the file declares a document type (DOCTYPE), through which outside text could be pulled in; it is refused unread"
                : "the file is no whole XML document; it was cut off or damaged";
            problems.Add(new Problem { File = file, Line = fault.LineNumber, Column = fault.LinePosition, Rule = rule });
            problems.ThrowIfAny();
            throw;
        }
    }

    private EspiFeed Read()
    {
        while (xml.Read())
        {
            if (xml.NodeType == XmlNodeType.EndElement && xml.LocalName == "entry") EndEntry();
            else if (xml.NodeType == XmlNodeType.Element) Element();
        }
        EndEntry();
        return _feed;
    }

    private void Element()
    {
        string name = xml.LocalName;
        _feed.IsEspi |= name is "UsagePoint" or "MeterReading" or "ReadingType" or "IntervalBlock";
        switch (name)
        {
            case "entry": EndEntry(); break;
            case "link": Link(); break;
            case "title": _title = parts.Text(); break;
            case "UsagePoint": _point = (null, true); break;
            case "ServiceCategory": ServiceCategory(); break;
            case "MeterReading": _isMeterReading = true; break;
            case "ReadingType": _type = ReadType(); break;
            case "LocalTimeParameters": LocalTime(); break;
            case "IntervalBlock": Block(); break;
        }
    }

    private void Link()
    {
        string? rel = xml.GetAttribute("rel"), href = xml.GetAttribute("href")?.Trim().TrimEnd('/');
        if (href is null) return;
        if (rel == "self") _self = href;
        else if (rel == "up") _up = href;
        else if (rel == "related") _related.Add(href);
    }

    private void EndEntry()
    {
        if (_point.IsPoint) _feed.UsagePoints[_self ?? ""] = (_point.Kind, _title);
        if (_isMeterReading) _feed.MeterReadings[_self ?? ""] = _related;
        if (_type is not null) _feed.ReadingTypes[_self ?? ""] = _type;
        EndPiece();
        if (_pieces.Count > 0)
        {
            string owner = Owner(_up ?? _self ?? "");
            if (_feed.Readings.TryGetValue(owner, out List<EspiReading[]>? before)) before.AddRange(_pieces);
            else _feed.Readings[owner] = _pieces;
            _pieces = [];
        }
        (_self, _up, _related, _type, _point, _isMeterReading, _title) = (null, null, [], null, default, false, "");
    }

    private void EndPiece()
    {
        if (_readings.Count > 0) _pieces.Add([.. _readings]);
        _readings.Clear();
    }

    // A block's link up is that of its meter reading's blocks.
    private static string Owner(string link)
    {
        int at = link.LastIndexOf("/IntervalBlock", StringComparison.Ordinal);
        return at < 0 ? link : link[..at];
    }

    private void ServiceCategory()
    {
        foreach (string name in parts.Children())
            if (name == "kind") _point = (parts.Whole32("kind"), true);
    }

    private EspiReadingType ReadType()
    {
        var type = new EspiReadingType();
        foreach (string name in parts.Children())
            switch (name)
            {
                case "accumulationBehaviour": type.AccumulationBehaviour = parts.Whole32(name); break;
                case "commodity": type.Commodity = parts.Whole32(name); break;
                case "dataQualifier": type.DataQualifier = parts.Whole32(name); break;
                case "defaultQuality": type.DefaultQuality = parts.Whole32(name); break;
                case "flowDirection": type.FlowDirection = parts.Whole32(name); break;
                case "intervalLength": type.IntervalLength = parts.Whole32(name); break;
                case "powerOfTenMultiplier": type.PowerOfTenMultiplier = parts.Whole32(name) ?? 0; break;
                case "uom": type.Uom = parts.Whole32(name); break;
            }
        if (Math.Abs(type.PowerOfTenMultiplier) > 12) parts.Report(parts.Line, "powerOfTenMultiplier", type.PowerOfTenMultiplier.ToString(CultureInfo.InvariantCulture), "lies outside −12 to 12");
        return type;
    }

    private void LocalTime()
    {
        int tz = 0, dst = 0;
        uint start = uint.MaxValue, end = uint.MaxValue;
        foreach (string name in parts.Children())
            switch (name)
            {
                case "tzOffset": tz = parts.Whole32(name) ?? 0; break;
                case "dstOffset": dst = parts.Whole32(name) ?? 0; break;
                case "dstStartRule": start = parts.Rule(); break;
                case "dstEndRule": end = parts.Rule(); break;
            }
        if (Math.Abs(tz) <= 64800 && Math.Abs(dst) <= 7200) _feed.LocalTime ??= new EspiLocalTime(tz, dst, start, end);
    }

    private void Block()
    {
        long next = long.MinValue;
        foreach (string name in parts.Children())
        {
            if (name == "interval") next = Period().Start ?? long.MinValue;
            else if (name == "IntervalReading") next = Reading(next);
        }
    }

    // Takes a reading; gives the time at which one without a start of its own would follow.
    private long Reading(long fallback)
    {
        int line = parts.Line;
        long? start = null, value = null;
        int? seconds = null;
        short quality = -1;
        bool hasValue = false;
        foreach (string name in parts.Children())
            switch (name)
            {
                case "timePeriod": (start, seconds) = Period(); break;
                case "value": (value, hasValue) = (parts.Whole64("value"), true); break;
                case "ReadingQuality":
                    foreach (string inner in parts.Children())
                        if (inner == "quality") quality = (short)Math.Clamp(parts.Whole32(inner) ?? -1, -1, 1000);
                    break;
            }
        if (!hasValue) return fallback;
        if (start is null && fallback == long.MinValue) parts.Report(line, "timePeriod", null, "start is missing; a reading without its time can not be placed");
        if (seconds is <= 0) parts.Report(line, "duration", seconds.Value.ToString(CultureInfo.InvariantCulture), "is no length of time");
        long at = start ?? fallback;
        if (value is long number) _readings.Add(new EspiReading(at, seconds ?? 0, number, quality, line));
        if (_readings.Count == PieceLength) EndPiece();
        return seconds > 0 ? at + seconds.Value : long.MinValue;
    }

    private (long? Start, int? Seconds) Period()
    {
        long? start = null;
        int? seconds = null;
        foreach (string name in parts.Children())
            if (name == "start") start = parts.Whole64(name);
            else if (name == "duration") seconds = parts.Whole32(name);
        return (start, seconds);
    }
}
