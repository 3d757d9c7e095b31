namespace VatWatch.Science.Electrodes;

/// <summary>
/// The one correction an ORP probe has: a constant in millivolts (there is no slope). Immutable; safe on any thread.
/// </summary>
/// <param name="Millivolts">What is added to the probe's reading, mV.</param>
/// <param name="Extrapolated">True when the solution or the reference electrode was used outside its source's range.</param>
public readonly record struct OrpOffset(double Millivolts, bool Extrapolated = false)
{
    /// <summary>Offset beyond which a probe is no longer as new, mV, either sign. Source: a maker's print; make it a setting.</summary>
    public const double WornBeyondMillivolts = 15;

    /// <summary>Offset beyond which a probe is unfit, mV, either sign. Source: the same print; make it a setting.</summary>
    public const double UnfitBeyondMillivolts = 50;

    /// <summary>(E_solution − E_reference) − E_measured, all at the solution's temperature.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The reading is not a number, or the temperature does not exist.</exception>
    public static OrpOffset FromCheck(
        CheckSolution solution, ReferenceElectrode reference, double temperatureC, double measuredMillivolts)
    {
        var expected = solution.MillivoltsOn(reference, temperatureC);
        return new OrpOffset(expected.Value - Wanted.Finite(measuredMillivolts, "mV"), expected.Extrapolated);
    }

    /// <summary>The corrected reading against the probe's own reference electrode, mV.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The reading is not a number.</exception>
    public double Correct(double measuredMillivolts) => Wanted.Finite(measuredMillivolts, "mV") + Millivolts;

    /// <summary>Judges the probe by the size of its offset.</summary>
    public ElectrodeVerdict Judge(
        double wornBeyondMillivolts = WornBeyondMillivolts, double unfitBeyondMillivolts = UnfitBeyondMillivolts)
        => Math.Abs(Millivolts) switch
        {
            var size when size <= wornBeyondMillivolts => ElectrodeVerdict.Good,
            var size when size <= unfitBeyondMillivolts => ElectrodeVerdict.Worn,
            _ => ElectrodeVerdict.Unfit,
        };
}
