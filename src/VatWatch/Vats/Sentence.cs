using System.Runtime.CompilerServices;
using System.Text;
using System.Text.RegularExpressions;

namespace VatWatch.Vats;

/// <summary>
/// A sentence whose temperatures, volumes and masses are still numbers in their canonical unit, so that it can be written out in the units of
/// whoever reads it. Immutable; two are equal when words and numbers are.
/// </summary>
/// <remarks>
/// Made from an interpolated string in which a number names its unit as its format: <c>new($"{vat} is at {temperatureC:°C}.")</c>; the units are
/// those of <see cref="DisplayUnits.Text"/>. <see cref="Stored"/> keeps it as one line with such numbers between ⟨ and ⟩, for example
/// "Madder Lane vat is at ⟨45 °C⟩."; other text cannot hold these two signs.
/// </remarks>
public sealed partial record Sentence
{
    /// <summary>A sentence with its numbers.</summary>
    public Sentence(Builder sentence) => Stored = sentence.Take();

    private Sentence(string stored) => Stored = stored;

    /// <summary>How it is kept on the disk.</summary>
    public string Stored { get; }

    /// <summary>The sentence that was kept so.</summary>
    public static Sentence Parse(string stored) => new(stored);

    /// <summary>A measured value with its unit, to stand in a sentence.</summary>
    public static Sentence Of(Quantity measures, double value) => new(Piece(value, measures.Unit()));

    /// <summary>Plain words, without numbers to be written out.</summary>
    public static implicit operator Sentence(string words) => new(Plain(words));

    /// <summary>What a probe told of itself: its degrees, which are Celsius, are numbers to be written out.</summary>
    public static Sentence Told(string words) => new(Degrees().Replace(Plain(words), found => $"{(found.Groups["low"] is { Success: true } low ? $"⟨{low.Value} °C⟩ to " : "")}⟨{found.Groups["number"].Value} °C⟩"));

    /// <summary>Two sentences with a space between.</summary>
    public static Sentence operator +(Sentence first, Sentence second) => Parse($"{first.Stored} {second.Stored}");

    /// <summary>Written out in <paramref name="units"/>.</summary>
    public string In(DisplayUnits units) => Stored.Contains('⟨')
        ? Number().Replace(Stored, found => units.Text(double.Parse(found.Groups["number"].ValueSpan), found.Groups["unit"].Value))
        : Stored;

    public override string ToString() => In(DisplayUnits.Si);

    private static bool DiffersBySystem(string? unit) => unit is "°C" or "K" or "K/h" or "L" or "g";

    private static bool IsUnit(string? format) => DiffersBySystem(format) || format is "pH" or "mV" or "mV/h" or "%" or "on/off";

    private static string Piece(double value, string unit) =>
        !double.IsFinite(value) ? "unknown" : DiffersBySystem(unit) ? $"⟨{value:0.####} {unit}⟩" : DisplayUnits.Si.Text(value, unit);

    private static string Plain(string words) => words.Replace('⟨', '<').Replace('⟩', '>');

    [GeneratedRegex("⟨(?<number>[-+.0-9]+) (?<unit>[^⟩]+)⟩", RegexOptions.CultureInvariant)]
    private static partial Regex Number();

    [GeneratedRegex(@"(?<![\d.])((?<low>[-+]?\d+(\.\d+)?) to )?(?<number>[-+]?\d+(\.\d+)?) °C(?! \()", RegexOptions.CultureInvariant)]
    private static partial Regex Degrees();

    /// <summary>Takes in the pieces of the interpolated string.</summary>
    [InterpolatedStringHandler]
    public readonly ref struct Builder(int literalLength, int formattedCount)
    {
        private readonly StringBuilder _text = new(literalLength + 16 * formattedCount);

        public void AppendLiteral(string words) => _text.Append(words);

        public void AppendFormatted(Sentence? piece) => _text.Append(piece?.Stored);

        public void AppendFormatted(string? words) => _text.Append(Plain(words ?? ""));

        /// <summary>A number, time and the like; <paramref name="format"/> is a number's canonical unit, or how it is written.</summary>
        public void AppendFormatted<T>(T value, string? format = null)
            where T : IFormattable => _text.Append(IsUnit(format) ? Piece(Convert.ToDouble(value), format!) : value.ToString(format, null));

        internal string Take() => _text.ToString();
    }
}
