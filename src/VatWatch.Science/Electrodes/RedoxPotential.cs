namespace VatWatch.Science.Electrodes;

/// <summary>
/// Carries a redox potential from one reference electrode to another. More positive is more oxidising. Readings against different
/// electrodes must be carried to one before they are compared or averaged.
/// </summary>
public static class RedoxPotential
{
    /// <summary>Eh, mV against the standard hydrogen electrode: measured plus the electrode's own potential at that temperature.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The reading is not a number, or the temperature does not exist.</exception>
    public static Estimate ToShe(double measuredMillivolts, ReferenceElectrode reference, double temperatureC)
        => Convert(measuredMillivolts, reference, ReferenceElectrode.StandardHydrogen, temperatureC);

    /// <summary>What a probe with that reference electrode shows for a potential given against the standard hydrogen electrode, mV.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The potential is not a number, or the temperature does not exist.</exception>
    public static Estimate FromShe(double sheMillivolts, ReferenceElectrode reference, double temperatureC)
        => Convert(sheMillivolts, ReferenceElectrode.StandardHydrogen, reference, temperatureC);

    /// <summary>The same potential against another reference electrode at the same temperature, mV.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The reading is not a number, or the temperature does not exist.</exception>
    public static Estimate Convert(double measuredMillivolts, ReferenceElectrode from, ReferenceElectrode to, double temperatureC)
    {
        Wanted.Finite(measuredMillivolts, "mV");
        Wanted.TemperatureC(temperatureC);
        if (ReferenceEquals(from, to))
            return Estimate.WithinRange(measuredMillivolts);

        var fromShe = from.MillivoltsVsShe(temperatureC);
        var toShe = to.MillivoltsVsShe(temperatureC);
        return new Estimate(measuredMillivolts + fromShe.Value - toShe.Value, fromShe.Extrapolated || toShe.Extrapolated);
    }
}
