namespace VatWatch.Science.Electrodes.Ph;

/// <summary>
/// The straight line that turns electrode millivolts into pH: calibrated at one temperature, used at another. The isopotential
/// point is taken as pH 7, 0 mV, and the voltage falls as pH rises. Immutable; safe on any thread.
/// </summary>
/// <param name="SlopeMillivoltsPerPh">Fall of the electrode voltage for one pH at <paramref name="TemperatureC"/>, mV, above 0.</param>
/// <param name="OffsetMillivolts">Electrode voltage at pH 7, mV.</param>
/// <param name="TemperatureC">Temperature of the calibration, °C.</param>
/// <exception cref="ArgumentOutOfRangeException">The slope is not above 0, the offset is not a number, or the temperature does not exist.</exception>
public sealed record PhLine(double SlopeMillivoltsPerPh, double OffsetMillivolts, double TemperatureC)
{
    /// <summary>Fall of the electrode voltage for one pH at <see cref="TemperatureC"/>, mV.</summary>
    public double SlopeMillivoltsPerPh { get; } = Wanted.Positive(SlopeMillivoltsPerPh, "mV");

    /// <summary>Electrode voltage at pH 7, mV.</summary>
    public double OffsetMillivolts { get; } = Wanted.Finite(OffsetMillivolts, "mV");

    /// <summary>Temperature of the calibration, °C.</summary>
    public double TemperatureC { get; } = Wanted.TemperatureC(TemperatureC);

    /// <summary>pH of the point every line turns about when the temperature changes. Source: usual design of glass electrodes.</summary>
    public const double IsopotentialPh = 7;

    /// <summary>The line of an ideal electrode: Nernst slope, no offset.</summary>
    public static PhLine Ideal(double temperatureC) => new(Nernst.SlopeMillivoltsPerPh(temperatureC), 0, temperatureC);

    /// <summary>The slope as a share of the Nernst slope at the temperature of the calibration, per cent.</summary>
    public double SlopePercent => 100 * SlopeMillivoltsPerPh / Nernst.SlopeMillivoltsPerPh(TemperatureC);

    /// <summary>pH of a liquor: 7 − (E − E₇) / (s · T / T_c), temperatures in kelvin.</summary>
    /// <param name="electrodeMillivolts">Electrode voltage, mV.</param>
    /// <param name="liquorTemperatureC">Temperature of the liquor at the electrode, °C.</param>
    /// <returns>pH at the liquor's own temperature; it is not carried back to 25 °C.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value is not a number, or a temperature does not exist.</exception>
    public double PhAt(double electrodeMillivolts, double liquorTemperatureC)
        => IsopotentialPh - (Wanted.Finite(electrodeMillivolts, "mV") - OffsetMillivolts) / SlopeAt(liquorTemperatureC);

    /// <summary>The electrode voltage this line expects in a liquor of known pH, mV: the reverse of <see cref="PhAt"/>.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A value is not a number, or a temperature does not exist.</exception>
    public double MillivoltsAt(double ph, double liquorTemperatureC)
        => OffsetMillivolts - SlopeAt(liquorTemperatureC) * (Wanted.Finite(ph, "") - IsopotentialPh);

    /// <summary>The slope carried to another temperature, mV per pH: s · T / T_c.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A temperature does not exist.</exception>
    public double SlopeAt(double liquorTemperatureC)
        => SlopeMillivoltsPerPh * Wanted.Kelvin(liquorTemperatureC) / Wanted.Kelvin(TemperatureC);
}
