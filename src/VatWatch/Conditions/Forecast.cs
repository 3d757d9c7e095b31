namespace VatWatch.Conditions;

/// <summary>A time ahead with its uncertainty band (about 90 %).</summary>
/// <param name="Late">Late edge; null when it may never happen.</param>
public sealed record Forecast(TimeSpan Early, TimeSpan Middle, TimeSpan? Late)
{
    /// <summary>The band in words, such as "25 min to 50 min"; "about 3 min" where both edges read the same.</summary>
    /// <param name="open">What follows the early edge where there is no late one, such as "or later".</param>
    public string Words(string open)
    {
        var early = DisplayUnits.Duration(Early);
        return Late is not { } late ? $"{early} {open}"
            : DisplayUnits.Duration(late) is var end && end == early ? $"about {early}"
            : $"{early} to {end}";
    }
}

/// <summary>A forecast, or why there is none.</summary>
/// <param name="Forecast">The time ahead; null when it is not to be expected.</param>
/// <param name="WhyNot">Then the reason, as a clause.</param>
public readonly record struct ForecastAnswer(Forecast? Forecast, string? WhyNot);
