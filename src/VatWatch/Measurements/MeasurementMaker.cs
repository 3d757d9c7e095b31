using System.Globalization;
using VatWatch.Calibration;
using VatWatch.Readings;

namespace VatWatch.Measurements;

/// <summary>
/// Turns the readings of one probe into measurements: unit, calibration, plausibility. Deterministic; one per probe, used by one stage.
/// </summary>
/// <param name="probe">The probe.</param>
/// <param name="calibrator">Calibrates for the probe's vat; fed with the vat's temperatures by the caller.</param>
public sealed class MeasurementMaker(ProbeDefinition probe, Calibrator calibrator)
{
    private readonly MeasurableRange _range = MeasurableRange.Of(probe.Quantity);
    private readonly ContactCheck _contact = new(probe, calibrator.Vat);
    private readonly RateCheck? _rate = probe.Quantity is Quantity.Temperature or Quantity.Ambient ? new() : null;
    private readonly SpikeCheck? _spike = probe.Quantity is Quantity.Ph or Quantity.Orp ? new(probe.Quantity) : null;
    private readonly FlatLineCheck? _flat = probe.Quantity is Quantity.Temperature or Quantity.Ph or Quantity.Orp ? new(probe.Quantity) : null;

    /// <summary>The measurement that <paramref name="reading"/> makes. Never throws on a value.</summary>
    public Measurement Make(Reading reading)
    {
        var sample = reading.Sample;
        if (sample.Value is not { } raw)
        {
            return Made(reading, null, sample.Quality == Quality.Good ? Quality.Missing : sample.Quality, sample.Reason ?? "the probe gave no value");
        }

        var calibrated = calibrator.Apply(probe, raw, reading.Stamp);
        if (_contact.Fault(probe.Unit.ToCanonical(raw), calibrated.Value, calibrator.LiquorC(reading.Stamp)) is { } noContact)
        {
            return Made(reading, null, Quality.Fault, noContact);
        }

        if (calibrated.Value is not { } value)
        {
            return Made(reading, null, Quality.Missing, calibrated.Doubt);
        }

        if (!double.IsFinite(value) || !_range.Holds(value))
        {
            return Made(reading, null, Quality.Fault, string.Create(
                CultureInfo.InvariantCulture,
                $"shows {value:0.##} {probe.Quantity.Unit()}, which cannot be; possible is {_range.Low} to {_range.High}"));
        }

        return Judged(reading, value, calibrated);
    }

    private Measurement Judged(Reading reading, double value, CalibratedValue calibrated)
    {
        var at = reading.Stamp.Monotonic;
        string?[] doubts = [reading.Sample.Reason, calibrated.Doubt, _rate?.Doubt(at, value), _spike?.Doubt(at, value), _flat?.Doubt(at, value)];
        var isDoubtful = doubts.Skip(1).Any(doubt => doubt is not null);
        var reason = string.Join("; ", doubts.Where(doubt => doubt is not null));
        var quality = reading.Sample.Quality == Quality.Good && isDoubtful ? Quality.Suspect : reading.Sample.Quality;
        return Made(reading, value, quality, reason.Length > 0 ? reason : null, calibrated.Calibration);
    }

    private static Measurement Made(Reading reading, double? value, Quality quality, string? reason, long? calibration = null) => new(
        reading.Vat,
        reading.Probe,
        reading.Quantity,
        reading.Stamp,
        reading.Sample.Value,
        value,
        quality,
        reason,
        calibration);
}
