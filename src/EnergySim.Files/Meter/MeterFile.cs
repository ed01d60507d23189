using NodaTime;

namespace EnergySim.Files;

/// <summary>Reads what a customer has from a utility or a portal: the energy-usage standard (XML), or a table of unknown layout.</summary>
public static class MeterFile
{
    /// <summary>Reads a file.</summary>
    /// <param name="file">Its path.</param>
    /// <param name="options">What is known of it.</param>
    /// <exception cref="ProblemsException">The file can not be read, or breaks a rule.</exception>
    /// <exception cref="MeterQuestionsException">It can be read in more than one way.</exception>
    public static MeterData Read(string file, MeterOptions? options = null)
    {
        ArgumentException.ThrowIfNullOrEmpty(file);
        options ??= new MeterOptions();
        MeterSource source = MeterSource.Open(file);
        MeterRows rows;
        DateTimeZone? zone;
        if (source.IsXml)
        {
            using TextReader text = source.XmlText();
            (rows, zone) = EspiReader.Read(text, file, options);
            rows.ThrowIfAsking(file);
        }
        else
        {
            (rows, zone) = PortalReader.Read(source.TableText(), file, options, source);
        }
        return MeterAssembly.Of(file, rows, zone, options);
    }
}
