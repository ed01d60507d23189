using System.Globalization;

namespace EnergySim.Studies.Sweeps;

/// <summary>A value that an input takes, as it would stand in the home file.</summary>
public readonly struct SweepValue : IEquatable<SweepValue>
{
    // A sampled number keeps so many digits: its text is short, and reads as the very same number.
    private const int Digits = 12;

    private readonly string? _text;

    private SweepValue(string? text, double? number) => (_text, Number) = (text, number);

    /// <summary>The number, where it is one; a share in per cent is the share. Null = a word.</summary>
    public double? Number { get; }

    /// <summary>The text.</summary>
    public string Text => _text ?? Number?.ToString("R", CultureInfo.InvariantCulture) ?? "";

    /// <summary>A value as it was written.</summary>
    public static SweepValue Written(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        bool inPerCent = text.EndsWith('%');
        ReadOnlySpan<char> digits = inPerCent ? text.AsSpan()[..^1].TrimEnd() : text;
        if (!double.TryParse(digits, NumberStyles.Float, CultureInfo.InvariantCulture, out double number)) return new SweepValue(text, null);
        return new SweepValue(text, inPerCent ? number / 100 : number);
    }

    /// <summary>A number, to twelve digits.</summary>
    public static SweepValue Of(double number)
    {
        if (number == 0 || !double.IsFinite(number)) return new SweepValue(null, number);
        int decimals = Digits - 1 - (int)Math.Floor(Math.Log10(Math.Abs(number)));
        double rounded = decimals is >= 0 and <= 15
            ? Math.Round(number, decimals)
            : double.Parse(number.ToString("E11", CultureInfo.InvariantCulture), CultureInfo.InvariantCulture);
        return new SweepValue(null, rounded);
    }

    /// <inheritdoc/>
    public bool Equals(SweepValue other) => Number is double a && other.Number is double b ? a.Equals(b) && _text == other._text : Text == other.Text;

    /// <inheritdoc/>
    public override bool Equals(object? obj) => obj is SweepValue other && Equals(other);

    /// <inheritdoc/>
    public override int GetHashCode() => Number is double number ? number.GetHashCode() : Text.GetHashCode(StringComparison.Ordinal);

    /// <summary>True when both are the same text and number.</summary>
    public static bool operator ==(SweepValue left, SweepValue right) => left.Equals(right);

    /// <summary>False when both are the same text and number.</summary>
    public static bool operator !=(SweepValue left, SweepValue right) => !left.Equals(right);
}
