namespace EnergySim.Files;

/// <summary>Reads on from a stream up to a bound, so that a small archive can not fill the memory.</summary>
internal sealed class BoundedStream(Stream inner, long most, string file, IDisposable? archive = null) : Stream
{
    private long _read;

    public override bool CanRead => true;

    public override bool CanSeek => false;

    public override bool CanWrite => false;

    public override long Length => throw new NotSupportedException();

    public override long Position
    {
        get => _read;
        set => throw new NotSupportedException();
    }

    public override int Read(byte[] buffer, int offset, int count) => Read(buffer.AsSpan(offset, count));

    public override int Read(Span<byte> buffer)
    {
        int read;
        try
        {
            read = inner.Read(buffer);
        }
        catch (InvalidDataException)
        {
            throw new ProblemsException([new Problem { File = file, Rule = "the archive is damaged; unpack it by hand, or export the file again" }]);
        }
        _read += read;
        if (_read > most) throw new ProblemsException([new Problem { File = file, Rule = MeterSource.TooLarge(most) }]);
        return read;
    }

    public override void Flush()
    {
    }

    public override long Seek(long offset, SeekOrigin origin) => throw new NotSupportedException();

    public override void SetLength(long value) => throw new NotSupportedException();

    public override void Write(byte[] buffer, int offset, int count) => throw new NotSupportedException();

    protected override void Dispose(bool disposing)
    {
        if (disposing)
        {
            inner.Dispose();
            archive?.Dispose();
        }
        base.Dispose(disposing);
    }
}
