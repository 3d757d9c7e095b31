namespace VatWatch.Conditions.Stored;

/// <summary>The numbers of a condition by name, each with its unit in the name. What is not known is absent.</summary>
public static class ConditionNumbers
{
    public const string TemperatureC = "temperatureC";
    public const string Ph = "ph";
    public const string OrpMillivolts = "orpMillivolts";

    /// <summary>All that are known and finite, rounded to four decimals; forecasts in minutes to one.</summary>
    public static IReadOnlyDictionary<string, double> Of(VatCondition condition)
    {
        var figures = ConditionFigures.Of(condition);
        var numbers = new Dictionary<string, double>(StringComparer.Ordinal);
        Add(numbers, TemperatureC, condition.TemperatureC);
        Add(numbers, "temperatureRateKPerHour", condition.TemperatureRateKPerHour);
        Add(numbers, Ph, condition.Ph);
        Add(numbers, OrpMillivolts, condition.OrpMillivolts);
        Add(numbers, "orpRateMillivoltsPerHour", condition.OrpRateMillivoltsPerHour);
        Add(numbers, "marginMillivolts", figures.Margin?.Millivolts);
        Add(numbers, "reducedPercent", figures.Margin?.ReducedPercent);
        Add(numbers, "fromGoodDaysMillivolts", figures.FromGoodDays?.OrpMillivolts);
        Add(numbers, "heaterPowerW", figures.Heat?.PowerW);
        Add(numbers, "lossWPerK", figures.Heat?.LossWPerK);
        Add(numbers, "plateauC", figures.Heat?.PlateauC);
        Add(numbers, "minutesToBand", condition.TimeToBand);
        Add(numbers, "minutesToLimit", condition.TimeToLimit);
        return numbers;
    }

    private static void Add(Dictionary<string, double> numbers, string name, double? value, int decimals = 4)
    {
        if (value is { } number && double.IsFinite(number))
        {
            numbers.Add(name, Math.Round(number, decimals));
        }
    }

    private static void Add(Dictionary<string, double> numbers, string name, Forecast? forecast)
    {
        Add(numbers, $"{name}Early", forecast?.Early.TotalMinutes, 1);
        Add(numbers, name, forecast?.Middle.TotalMinutes, 1);
        Add(numbers, $"{name}Late", forecast?.Late?.TotalMinutes, 1);
    }
}
