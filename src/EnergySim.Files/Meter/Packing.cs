namespace EnergySim.Files;

/// <summary>How a file is packed.</summary>
internal enum Packing
{
    None,
    Gzip,
    Zip,
}
