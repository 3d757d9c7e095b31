using Iot.Device.Ads1115;
using VatWatch.Science;
using VatWatch.Science.Thermometry;
using VatWatch.Vats.Configuration;

namespace VatWatch.Probes.I2c.Ads1115;

/// <summary>A thermistor in series with a known resistor, delivered in °C.</summary>
/// <param name="SeriesOhm">The known resistor.</param>
/// <param name="ToSupply">True when the thermistor lies between supply and tap, false when between tap and ground.</param>
/// <param name="SupplyVolts">The divider's supply when it is not measured.</param>
/// <param name="SupplyInput">The input that measures it, which takes its error out.</param>
/// <param name="TemperatureC">The part's equation, °C from Ω.</param>
internal sealed record DividedThermistor(
    double SeriesOhm, bool ToSupply, double SupplyVolts, InputMultiplexer? SupplyInput, Func<double, Estimate> TemperatureC) : IVoltageMeaning
{
    /// <summary>
    /// Nearer than this share of the supply to either end is a broken circuit: with series and nominal resistance alike it would be below
    /// −50 °C or above 190 °C. Chosen by us.
    /// </summary>
    private const double Edge = 0.005;

    /// <summary>A divider's supply below this is off. Chosen by us.</summary>
    private const double LeastSupplyVolts = 0.5;

    public SampleUnit Unit => SampleUnit.Canonical(Quantity.Temperature);

    public Sample Translate(double volts, double? supplyVolts)
    {
        var supply = supplyVolts ?? SupplyVolts;
        if (supply < LeastSupplyVolts)
        {
            return Sample.Fault($"the supply of the thermistor's divider reads {supply:0.000} V; check it");
        }

        var ratio = volts / supply;
        if (ratio is < Edge or > 1 - Edge)
        {
            return Sample.Fault(ratio < Edge != ToSupply
                ? $"thermistor shorted: its divider reads {volts:0.000} V of {supply:0.000} V"
                : $"thermistor circuit open: its divider reads {volts:0.000} V of {supply:0.000} V");
        }

        var ohm = ToSupply ? ThermistorDivider.ToSupplyOhm(SeriesOhm, ratio) : ThermistorDivider.ToGroundOhm(SeriesOhm, ratio);
        try
        {
            var temperature = TemperatureC(ohm);
            return temperature.Extrapolated
                ? Sample.Suspect(temperature.Value, $"{ohm:0} Ω is outside the range for which the thermistor's equation holds")
                : Sample.Good(temperature.Value);
        }
        catch (ArgumentOutOfRangeException)
        {
            return Sample.Fault($"the thermistor's coefficients give no temperature for its {ohm:0} Ω");
        }
    }
}
