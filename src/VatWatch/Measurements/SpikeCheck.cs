using System.Globalization;

namespace VatWatch.Measurements;

/// <summary>A single pH or ORP value far from those about it: in doubt until the next reading confirms it. Not thread safe.</summary>
/// <param name="measures">pH or ORP.</param>
internal sealed class SpikeCheck(Quantity measures)
{
    /// <summary>A step of pH 0.5 or 50 mV between two readings is rarer in a vat than a spark of its pump or relay. Engineering choice, no source.</summary>
    private readonly double _step = measures == Quantity.Ph ? 0.5 : 50;

    /// <summary>After a silence of this length anything may have happened.</summary>
    private static readonly TimeSpan Forgets = TimeSpan.FromMinutes(5);

    private readonly UnconfirmedStep _unconfirmed = new();

    /// <summary>The doubt about this value, as a clause; null when there is none.</summary>
    public string? Doubt(TimeSpan at, double value) =>
        _unconfirmed.Doubts(at, value, time => time > Forgets ? double.PositiveInfinity : _step)
            ? $"jumped from {Written(_unconfirmed.Before)} to {Written(value)} {measures.Unit()}; waits for the next reading"
            : null;

    private string Written(double? value) => value?.ToString(measures == Quantity.Ph ? "0.00" : "0", CultureInfo.InvariantCulture) ?? "";
}
