namespace EnergySim.Reports.Drawing;

/// <summary>A rectangle in the pixels of a picture; down is positive.</summary>
internal readonly record struct Box(double Left, double Top, double Right, double Bottom)
{
    public double Width => Right - Left;

    public double Height => Bottom - Top;

    public double MiddleX => (Left + Right) / 2;

    public Box Inset(double px) => new(Left + px, Top + px, Right - px, Bottom - px);

    public bool Overlaps(Box other) => Left < other.Right && other.Left < Right && Top < other.Bottom && other.Top < Bottom;

    public bool Contains(Box other) => other.Left >= Left && other.Right <= Right && other.Top >= Top && other.Bottom <= Bottom;
}
