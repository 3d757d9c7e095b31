using System.Globalization;
using VatWatch.Readings;
using VatWatch.Vats;

namespace VatWatch.Measurements;

/// <summary>Turns the readings of one probe into measurements: unit, plausibility. Pure; one per probe, used by one stage.</summary>
public sealed class MeasurementMaker(ProbeDefinition probe)
{
    private readonly MeasurableRange _range = MeasurableRange.Of(probe.Measures);

    /// <summary>The measurement that <paramref name="reading"/> makes. Never throws on a value.</summary>
    public Measurement Make(Reading reading)
    {
        var sample = reading.Sample;
        if (sample.Value is not { } raw)
        {
            return Made(reading, null, sample.Quality == Quality.Good ? Quality.Missing : sample.Quality, sample.Reason ?? "the probe gave no value");
        }

        var value = probe.Unit.ToCanonical(raw);
        if (!double.IsFinite(value) || !_range.Holds(value))
        {
            return Made(reading, null, Quality.Fault, string.Create(
                CultureInfo.InvariantCulture,
                $"shows {value:0.##} {probe.Measures.Unit()}, which cannot be; possible is {_range.Low} to {_range.High}"));
        }

        return Made(reading, value, sample.Quality, sample.Reason);
    }

    private static Measurement Made(Reading reading, double? value, Quality quality, string? reason) => new(
        reading.Vat,
        reading.Probe,
        reading.Measures,
        reading.Stamp,
        reading.Sample.Value,
        value,
        quality,
        reason,
        null);
}
