using VatWatch.Daemon.Wiring;
using VatWatch.Measurements;

namespace VatWatch.Daemon.Verbs.Read;

/// <summary>What to look at on the bench when a probe gives no good value; its driver knows.</summary>
internal static class ProbeAdvice
{
    /// <summary>What reasons say when nothing was reached, against a value that is none.</summary>
    private static readonly string[] Unreached =
        ["there is no /", "there is no folder", "cannot open", "cannot be opened", "did not open", "cannot connect", "does not answer", "no chip on"];

    /// <summary>One sentence or two, or null when the value is good.</summary>
    public static string? For(ProbeDefinition probe, Measurement measurement)
    {
        if (measurement.Quality == Quality.Good)
        {
            return null;
        }

        if (measurement.Reason?.Contains("calibrated", StringComparison.Ordinal) == true)
        {
            return $"Calibrate it: vatwatch calibrate {(probe.Quantity == Quantity.Orp ? "orp" : "ph")} --probe {probe.Id}.";
        }

        var advice = Catalog.Everything.Drivers[probe.Driver].Advice;
        var neverAnswered = measurement.Quality == Quality.Missing || Unreached.Any(words => measurement.Reason?.Contains(words, StringComparison.Ordinal) == true);
        return neverAnswered ? advice.Silent : advice.Wrong;
    }
}
