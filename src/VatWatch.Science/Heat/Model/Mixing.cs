namespace VatWatch.Science.Heat.Model;

/// <summary>Cold yarn, a top-up, or any other thing put into the vat.</summary>
public static class Mixing
{
    /// <summary>Temperature after the two have come to balance, °C.</summary>
    /// <param name="capacityJPerK">Heat capacity of the vat, above 0.</param>
    /// <param name="temperatureC">Of the vat.</param>
    /// <param name="addedJPerK">Heat capacity of what is added, 0 or more.</param>
    /// <param name="addedC">Its temperature.</param>
    public static double TemperatureC(double capacityJPerK, double temperatureC, double addedJPerK, double addedC)
    {
        var share = Wanted.NotNegative(addedJPerK, "J/K") / (Wanted.Positive(capacityJPerK, "J/K") + addedJPerK);
        return Wanted.Finite(temperatureC, "°C") + share * (Wanted.Finite(addedC, "°C") - temperatureC);
    }
}
