namespace VatWatch.Science.Thermometry;

/// <summary>The last step all thermistor equations share: from 1/T to °C.</summary>
internal static class ThermistorCurve
{
    internal static Estimate FromReciprocalKelvin(double reciprocalKelvin, double resistanceOhm, double lowC, double highC)
    {
        var temperatureC = 1 / reciprocalKelvin + Wanted.AbsoluteZeroC;
        return reciprocalKelvin > 0 && double.IsFinite(temperatureC)
            ? Estimate.InRange(temperatureC, temperatureC, lowC, highC)
            : throw Wanted.Refusal(
                resistanceOhm, nameof(resistanceOhm), "a resistance to which the thermistor's constants give a temperature");
    }
}
