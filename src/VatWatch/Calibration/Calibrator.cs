using VatWatch.Science.Electrodes.Ph;

namespace VatWatch.Calibration;

/// <summary>
/// Turns what the probes of one vat deliver into canonical values: an electrode's millivolts by its calibration and the liquor's temperature,
/// everything else by its unit. Not thread safe; one per vat.
/// </summary>
public sealed class Calibrator(VatDefinition vat, CalibrationCache calibrations)
{
    private readonly LiquorTemperature _liquor = new(vat);

    /// <summary>A calibrator without any calibration.</summary>
    public Calibrator(VatDefinition vat)
        : this(vat, new CalibrationCache())
    {
    }

    public VatDefinition Vat => vat;

    /// <summary>Whether a calibration of ours can act on this probe: a pH electrode's millivolts, or ORP in any form. Finished pH is the instrument's own business.</summary>
    public static bool CanCalibrate(ProbeDefinition probe) => probe.Quantity == Quantity.Orp || (probe.Quantity == Quantity.Ph && probe.Unit.IsElectrode);

    /// <summary>Takes in a good liquor temperature, °C; others' slopes are corrected by it from here on.</summary>
    public void TakeTemperature(ProbeId probe, double temperatureC, Stamp at) => _liquor.Take(probe, temperatureC, at);

    /// <summary>The newest usable liquor temperature, °C.</summary>
    public double? LiquorC(Stamp now) => _liquor.At(now)?.TemperatureC;

    /// <summary>Calibrates one delivered value. Never throws on a value.</summary>
    public CalibratedValue Apply(ProbeDefinition probe, double delivered, Stamp at)
    {
        var plain = probe.ToCanonical(delivered);
        if (probe.Unit.IsPower)
        {
            return new(plain / vat.HeaterWatts, null, vat.HeaterWatts is null ? "the rated power of the heater is not configured" : null);
        }

        if (!CanCalibrate(probe) || !double.IsFinite(plain))
        {
            return new(plain, null, null);
        }

        var used = calibrations.InUse(probe.Id) is { } found && found.Calibration.Quantity == probe.Quantity ? found : null;
        return probe.Quantity == Quantity.Orp ? Orp(probe, plain, used) : Ph(plain, used, at);
    }

    private static CalibratedValue Orp(ProbeDefinition probe, double millivolts, DatedCalibration? used) => used is null
        ? new(millivolts, null, probe.Unit.IsElectrode ? NotCalibrated : null)
        : new(used.Calibration.ValueAt(millivolts, used.Calibration.TemperatureC), used.Id, null);

    private CalibratedValue Ph(double millivolts, DatedCalibration? used, Stamp at)
    {
        var (temperatureC, temperatureDoubt) = TemperatureFor(used, at);
        if (temperatureC is not { } liquorC)
        {
            return new(null, null, temperatureDoubt);
        }

        var value = used?.Calibration.ValueAt(millivolts, liquorC) ?? PhLine.Ideal(liquorC).PhAt(millivolts, liquorC);
        var doubt = (used, temperatureDoubt) switch
        {
            (null, null) => NotCalibrated,
            (null, _) => $"{NotCalibrated}; {temperatureDoubt}",
            _ => temperatureDoubt,
        };
        return new(value, used?.Id, doubt);
    }

    private (double? TemperatureC, string? Doubt) TemperatureFor(DatedCalibration? used, Stamp at)
    {
        if (!_liquor.IsWatched)
        {
            var assumed = used?.Calibration.TemperatureC ?? 25;
            return (assumed, $"the vat has no temperature probe; worked out for {assumed:0.#} °C");
        }

        return _liquor.At(at) switch
        {
            { Stale: null } fresh => (fresh.TemperatureC, null),
            { Stale: { } age } old => (old.TemperatureC, $"no liquor temperature for {DisplayUnits.Duration(age)}; worked out with the last, {old.TemperatureC:0.0} °C"),
            null => (null, TemperatureGone),
        };
    }

    private const string NotCalibrated = "not calibrated; worked out as an ideal electrode";

    private static readonly string TemperatureGone =
        $"no liquor temperature within {DisplayUnits.Duration(LiquorTemperature.Holds)}, and a pH electrode cannot be read without it";
}

/// <summary>What calibration made of a delivered value.</summary>
/// <param name="Value">In the canonical unit; null when it cannot be worked out.</param>
/// <param name="Calibration">Row of the calibration used; null when none was.</param>
/// <param name="Doubt">Why the value is doubtful or absent, as a clause; null when all is well.</param>
public readonly record struct CalibratedValue(double? Value, long? Calibration, string? Doubt);
