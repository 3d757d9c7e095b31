using VatWatch.Measurements;
using VatWatch.Vats;

namespace VatWatch.Charts.Traces;

/// <summary>The margin of reduction over time, as a trace like that of a probe.</summary>
internal static class MarginTrace
{
    private static readonly ProbeId FromOthers = new("from pH and ORP");

    /// <summary>The trace within a record; null when no margin is known. Where it leaves what its sources vouch for, it is doubtful.</summary>
    public static ProbeTrace? Of(VatRecord record)
    {
        var looks = record.Conditions.Where(condition => condition.Stamp.Utc >= record.From && condition.Stamp.Utc <= record.To).ToArray();
        if (!Array.Exists(looks, look => look.Margin is not null))
            return null;
        return ProbeTrace.Made(FromOthers, Measures.Orp,
        [
            .. looks.Select(look => look.Margin is { } margin
                ? new Measurement(look.Vat, FromOthers, Measures.Orp, look.Stamp, null, margin.Millivolts, margin.Extrapolated ? Quality.Suspect : Quality.Good, null, null)
                : new Measurement(look.Vat, FromOthers, Measures.Orp, look.Stamp, null, null, Quality.Missing, "pH, ORP or temperature is not known", null)),
        ]);
    }
}
