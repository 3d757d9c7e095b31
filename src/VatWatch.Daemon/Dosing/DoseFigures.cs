using VatWatch.Science.Dosing;
using VatWatch.Vats.Configuration;

namespace VatWatch.Daemon.Dosing;

/// <summary>
/// Reads the figures of one command line or form and keeps a sentence for each that cannot be read, so that all are told at once. Whether a figure that can be read
/// is possible is for the dose itself to say.
/// </summary>
internal sealed class DoseFigures
{
    private readonly List<string> _faults = [];
    private readonly HashSet<string> _missing = [];

    /// <summary>A quantity with its unit, in its canonical unit; 0 with a fault noted where it is none.</summary>
    public double Quantity(string option, string text, QuantityKind kind, double low, double high) =>
        kind.TryParse(Typed.Quantity(text), out var value) ? value : Fault(option, text, kind.Wanted(low, high));

    public double? OptionalQuantity(string option, string? text, QuantityKind kind, double low, double high) =>
        text is null ? null : Quantity(option, text, kind, low, high);

    /// <summary>One that is refused beyond its range.</summary>
    public double? OptionalWithin(string option, string? text, QuantityKind kind, double low, double high) =>
        text is null ? null : kind.TryParse(Typed.Quantity(text), out var value) && value >= low && value <= high ? value : Fault(option, text, kind.Wanted(low, high));

    /// <summary>A number without a unit.</summary>
    public double Number(string option, string text, string wanted) =>
        Typed.TryNumber(text, out var value) ? value : Fault(option, text, wanted);

    public double? OptionalNumber(string option, string? text, string wanted) => text is null ? null : Number(option, text, wanted);

    /// <summary>One word of several; the first one's value with a fault noted where it is none of them.</summary>
    public T Word<T>(string option, string text, params ReadOnlySpan<(string Word, T Value)> words)
    {
        List<string> known = [];
        foreach (var (word, value) in words)
        {
            if (word == text)
            {
                return value;
            }

            known.Add(word);
        }

        Fault(option, text, "one of " + string.Join(", ", known));
        return words[0].Value;
    }

    /// <summary>What a fibre stands, by its word ("wool", "cellulose"); null where none was said, or with a fault noted where it is none.</summary>
    public FibreLimit? OptionalFibre(string option, string? text)
    {
        if (text is null)
        {
            return null;
        }

        switch (Typed.FibreOf(text))
        {
            case Fibre.Protein:
                return FibreLimit.Protein();
            case Fibre.Cellulose:
                return FibreLimit.Cellulose();
            default:
                Fault(option, text, Typed.FibreWanted);
                return null;
        }
    }

    /// <summary>What could not be read, a sentence each.</summary>
    public IReadOnlyList<string> Faults => _faults;

    /// <summary>Files one that nobody said.</summary>
    /// <returns>Empty.</returns>
    public string Missing(string option, string wanted)
    {
        _missing.Add(option);
        _faults.Add($"{option} is missing; wanted {wanted}.");
        return "";
    }

    /// <summary>Files one that cannot be read.</summary>
    /// <returns>0.</returns>
    public double Fault(string option, string text, string wanted)
    {
        if (!_missing.Contains(option))
        {
            _faults.Add($"{option} is '{text}'; wanted {wanted}.");
        }

        return 0;
    }
}
