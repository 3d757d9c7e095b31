using VatWatch.Calibration;
using VatWatch.Probes;
using VatWatch.Readings;
using VatWatch.Science.Electrodes;
using VatWatch.Science.Electrodes.Ph;
using VatWatch.Testing;
using VatWatch.Vats.Configuration;

namespace VatWatch.Tests.Calibration;

/// <summary>A vat with bare electrodes, and calibrations for them.</summary>
internal static class Electrodes
{
    public static DateTimeOffset Noon { get; } = new(2031, 3, 14, 12, 0, 0, TimeSpan.Zero);

    public static ProbeDefinition Liquor { get; } = SampleVats.Probe("madder-lane", "liquor", Quantity.Temperature);

    public static ProbeDefinition Ph { get; } = Bare("glass", Quantity.Ph);

    public static ProbeDefinition Orp { get; } = Bare("platinum", Quantity.Orp);

    public static VatDefinition Vat { get; } = SampleVats.MadderLane() with { Probes = [Liquor, Ph, Orp] };

    public static PhCalibration TwoBuffers { get; } = PhCalibration.Through(
        [Point(7.00, 5.0, 25), Point(10.01, -170.0, 25)], PhFitKind.Line, null);

    public static OrpCalibration InZoBell { get; } = OrpCalibration.In(CheckSolution.ZoBell, ReferenceElectrode.SilverChloride3M, 214, 25);

    public static PhCalibrationPoint Point(double ph, double millivolts, double temperatureC) =>
        new($"bottle {ph}", new PhPoint(millivolts, ph, temperatureC));

    public static CalibrationCache Calibrations(params (long Id, ProbeDefinition Probe, ElectrodeCalibration Calibration)[] entries)
    {
        var calibrations = new CalibrationCache();
        calibrations.Fill(entries.Select(entry => new DatedCalibration(entry.Id, entry.Probe.Id, Noon.AddDays(entry.Id), entry.Calibration)));
        return calibrations;
    }

    public static Stamp At(double seconds) => new(Noon.AddSeconds(seconds), TimeSpan.FromSeconds(seconds), true);

    public static Reading Reading(ProbeDefinition probe, double? value, double seconds) => new(
        probe.Vat, probe.Id, probe.Quantity, value is { } known ? Sample.Good(known) : Sample.Missing("no reply within 500 ms"), At(seconds), TimeSpan.Zero);

    private static ProbeDefinition Bare(string id, Quantity measures) =>
        SampleVats.Probe("madder-lane", id, measures) with { Unit = new SampleUnit(SampleUnit.ElectrodeText, 1, 0, true) };
}
