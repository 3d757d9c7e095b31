using VatWatch.Science.Electrodes;

namespace VatWatch.Calibration;

/// <summary>An ORP probe in one check solution. A platinum electrode has no slope, so its one correction is an offset.</summary>
/// <param name="Solution">Name of the check solution.</param>
/// <param name="Reference">Name of the reference electrode that all potentials here are against.</param>
/// <param name="MeasuredMillivolts">What the probe showed, mV.</param>
/// <param name="Offset">What is added to the probe's readings.</param>
/// <param name="SolutionC">Temperature of the solution, °C.</param>
/// <param name="Settled">How long the probe took to come to rest; null when nobody timed it.</param>
public sealed record OrpCalibration(
    string Solution, string Reference, double MeasuredMillivolts, OrpOffset Offset, double SolutionC, TimeSpan? Settled = null) : ElectrodeCalibration
{
    /// <summary>What a faultless probe would have shown, mV.</summary>
    public double ExpectedMillivolts => MeasuredMillivolts + Offset.Millivolts;

    public override Quantity Quantity => Quantity.Orp;

    public override double TemperatureC => SolutionC;

    public override TimeSpan? Settling => Settled;

    /// <summary>Works out the offset.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The reading is not a number, or the temperature does not exist; a sentence.</exception>
    public static OrpCalibration In(CheckSolution solution, ReferenceElectrode reference, double measuredMillivolts, double temperatureC, TimeSpan? settling = null) => new(
        solution.Name,
        reference.Name,
        measuredMillivolts,
        OrpOffset.FromCheck(solution, reference, temperatureC, measuredMillivolts),
        temperatureC,
        settling);

    public override double ValueAt(double electrodeMillivolts, double liquorTemperatureC) => Offset.Correct(electrodeMillivolts);
}
