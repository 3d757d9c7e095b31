using VatWatch.Calibration;
using VatWatch.Readings;

namespace VatWatch.Measurements;

/// <summary>
/// Turns the readings of one probe into measurements: unit, calibration, plausibility. Deterministic; one per probe, used by one stage.
/// </summary>
/// <param name="calibrator">Calibrates for the probe's vat; fed with the vat's temperatures by the caller.</param>
public sealed class MeasurementMaker(ProbeDefinition probe, Calibrator calibrator)
{
    private readonly MeasurableRange _range = MeasurableRange.Of(probe.Quantity);
    private readonly ContactCheck _contact = new(probe, calibrator.Vat);
    private readonly RateCheck? _rate = probe.Quantity is Quantity.Temperature or Quantity.Ambient ? new() : null;
    private readonly SpikeCheck? _spike = probe.Quantity is Quantity.Ph or Quantity.Orp ? new(probe.Quantity) : null;
    private readonly FlatLineCheck? _flat = probe.Quantity is Quantity.Temperature or Quantity.Ph or Quantity.Orp ? new(probe.Quantity) : null;

    /// <summary>Above every reading in whatever unit; a sentence with such a number would be longer than a telephone's screen.</summary>
    internal const double Unthinkable = 1e9;

    public ProbeDefinition Probe => probe;

    /// <summary>The measurement that <paramref name="reading"/> makes. Never throws on a value.</summary>
    public Measurement Make(Reading reading)
    {
        var sample = reading.Sample;
        if (sample.Value is not { } raw)
        {
            return Made(reading, null, sample.Quality == Quality.Good ? Quality.Missing : sample.Quality, sample.Reason ?? "the probe gave no value");
        }

        if (!(Math.Abs(raw) < Unthinkable))
        {
            return Made(reading, null, Quality.Fault, $"gives {raw:G5}, which no instrument means");
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
            return Made(reading, null, Quality.Fault, $"shows {value:0.##} {probe.Quantity.Unit()}, which cannot be; possible is {_range.Low} to {_range.High}");
        }

        return Judged(reading, value, calibrated);
    }

    private Measurement Judged(Reading reading, double value, CalibratedValue calibrated)
    {
        var at = reading.Stamp.Monotonic;
        var doubt = And(And(And(calibrated.Doubt, _rate?.Doubt(at, value)), _spike?.Doubt(at, value)), _flat?.Doubt(at, value));
        var quality = reading.Sample.Quality == Quality.Good && doubt is not null ? Quality.Suspect : reading.Sample.Quality;
        return Made(reading, value, quality, And(reading.Sample.Reason, doubt), calibrated.Calibration);
    }

    private static string? And(string? one, string? other) => string.IsNullOrEmpty(one) ? other : other is null ? one : $"{one}; {other}";

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

/// <summary>A value that used to move and has been exactly the same for longer than 15 min: a frozen instrument. Not thread safe.</summary>
internal sealed class FlatLineCheck(Quantity measures)
{
    private readonly FrozenValue _frozen = FrozenValue.Of(measures);

    /// <summary>The doubt about this value, as a clause that does not change while it lasts; null when there is none.</summary>
    public string? Doubt(TimeSpan at, double value)
    {
        _frozen.Add(at, value);
        return _frozen.IsFrozen
            ? $"has been exactly {value:0.###} {measures.Unit()} for longer than 15 min, though it used to move"
            : null;
    }
}

/// <summary>A liquor or a room that warms or cools faster than it can: in doubt until the next reading confirms it. Not thread safe.</summary>
/// <remarks>
/// 9 kW in 20 L of water give 6.5 K/min and a dye house's heater in its vat under 1 K/min, so 5 K/min is a bad contact or a probe taken out. A step
/// of 1 K is allowed at any rate, or a coarse probe that is read each second would always be too fast. Engineering choice, no source.
/// </remarks>
internal sealed class RateCheck
{
    private const double KelvinPerMinute = 5;
    private const double AlwaysKelvin = 1;

    private readonly UnconfirmedStep _step = new();

    /// <summary>The doubt about this temperature, as a clause; null when there is none.</summary>
    public string? Doubt(TimeSpan at, double temperatureC) =>
        _step.Doubts(at, temperatureC, time => Math.Max(AlwaysKelvin, KelvinPerMinute * time.TotalMinutes))
            ? $"moved from {_step.Before:0.0} to {temperatureC:0.0} °C, faster than {KelvinPerMinute} K/min; waits for the next reading"
            : null;
}

/// <summary>A single pH or ORP value far from those about it: in doubt until the next reading confirms it. Not thread safe.</summary>
/// <param name="measures">pH or ORP.</param>
internal sealed class SpikeCheck(Quantity measures)
{
    /// <summary>After a silence of this length anything may have happened.</summary>
    private static readonly TimeSpan Forgets = TimeSpan.FromMinutes(5);

    /// <summary>A step of pH 0.5 or 50 mV between two readings is rarer in a vat than a spark of its pump or relay. Engineering choice, no source.</summary>
    private readonly Func<TimeSpan, double> _allowed = measures == Quantity.Ph ? time => time > Forgets ? double.PositiveInfinity : 0.5 : time => time > Forgets ? double.PositiveInfinity : 50;
    private readonly UnconfirmedStep _unconfirmed = new();

    /// <summary>The doubt about this value, as a clause; null when there is none.</summary>
    public string? Doubt(TimeSpan at, double value) =>
        _unconfirmed.Doubts(at, value, _allowed)
            ? $"jumped from {Written(_unconfirmed.Before)} to {Written(value)} {measures.Unit()}; waits for the next reading"
            : null;

    private string Written(double? value) => value?.ToString(measures == Quantity.Ph ? "0.00" : "0") ?? "";
}
