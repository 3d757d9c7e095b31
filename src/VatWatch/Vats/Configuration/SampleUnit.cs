using System.Diagnostics.CodeAnalysis;

namespace VatWatch.Vats.Configuration;

/// <summary>
/// The unit in which a probe delivers, and how it is turned into the canonical unit of what is measured:
/// canonical = delivered × <see cref="Scale"/> + <see cref="Offset"/>.
/// </summary>
/// <param name="Text">As written in the configuration.</param>
/// <param name="Scale">Factor.</param>
/// <param name="Offset">Canonical value of a delivered zero.</param>
/// <param name="IsElectrode">True for "electrode mV": a bare electrode's potential that a calibration turns into pH or ORP.</param>
public sealed record SampleUnit(string Text, double Scale, double Offset, bool IsElectrode)
{
    /// <summary>Whether <see cref="ToCanonical"/> gives watts, of which the vat's rated power makes a share.</summary>
    public bool IsPower { get; init; }

    /// <summary>The spelling for a bare electrode.</summary>
    public const string ElectrodeText = "electrode mV";

    /// <summary>Turns a delivered value into the canonical unit.</summary>
    public double ToCanonical(double delivered) => delivered * Scale + Offset;

    /// <summary>What <paramref name="measures"/> may be delivered in, for a fault's sentence.</summary>
    public static string Wanted(Quantity measures) => measures switch
    {
        Quantity.Temperature or Quantity.Ambient => "\"°C\", \"°F\" or \"K\"",
        Quantity.Ph => $"\"pH\" or \"{ElectrodeText}\"",
        Quantity.Orp => $"\"mV\", \"V\" or \"{ElectrodeText}\"",
        Quantity.Heater => "\"on/off\", \"%\", \"W\" or \"kW\"",
        Quantity.HeaterCommand => "\"on/off\"",
        _ => "\"%\"",
    };

    /// <summary>Canonical unit of <paramref name="measures"/>, delivered as it is.</summary>
    public static SampleUnit Canonical(Quantity measures) => new(measures.Unit(), 1, 0, false);

    /// <summary>Reads a unit; false when <paramref name="measures"/> cannot be delivered in it.</summary>
    public static bool TryParse(string text, Quantity measures, [NotNullWhen(true)] out SampleUnit? unit)
    {
        unit = text == measures.Unit() ? Canonical(measures) : (measures, text) switch
        {
            (Quantity.Ph or Quantity.Orp, ElectrodeText) => new(text, 1, 0, true),
            (Quantity.Temperature or Quantity.Ambient, _) => Linear(text, QuantityKind.Temperature),
            (Quantity.Heater, "%") => new(text, 0.01, 0, false),
            (Quantity.Heater, _) => Linear(text, QuantityKind.Power) is { } power ? power with { IsPower = true } : null,
            (Quantity.Orp, _) => Linear(text, QuantityKind.Potential),
            _ => null,
        };
        return unit is not null;
    }

    private static SampleUnit? Linear(string text, QuantityKind kind) =>
        kind.TryParse($"0 {text}", out var zero) && kind.TryParse($"1000 {text}", out var thousand)
            ? new(text, (thousand - zero) / 1000, zero, false)
            : null;
}
