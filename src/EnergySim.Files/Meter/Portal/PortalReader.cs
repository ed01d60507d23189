using NodaTime;

namespace EnergySim.Files;

internal static class PortalReader
{
    public static (MeterRows Rows, DateTimeZone? Zone) Read(string text, string file, MeterOptions options, MeterSource source) => throw new NotSupportedException();
}
