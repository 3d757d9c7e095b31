using VatWatch.Measurements;

namespace VatWatch.Charts.Traces;

/// <summary>The margin of reduction over time, as a trace like that of a probe.</summary>
internal static class MarginTrace
{
    private static readonly ProbeId FromOthers = new("from pH and ORP");

    /// <summary>The trace within a record; null when no margin is known. Where it leaves what its sources vouch for, it is doubtful.</summary>
    public static ProbeTrace? Of(VatRecord record)
    {
        VatSnapshot[] looks = [.. record.Looks];
        if (!Array.Exists(looks, look => look.MarginMillivolts is not null))
            return null;
        return ProbeTrace.Made(FromOthers, Quantity.Orp,
        [
            .. looks.Select(look => look.MarginMillivolts is { } margin
                ? Value(record, look, margin, look.Extrapolated ? Quality.Suspect : Quality.Good, null)
                : Value(record, look, null, Quality.Missing, "pH, ORP or temperature is not known")),
        ]);
    }

    private static Measurement Value(VatRecord record, VatSnapshot look, double? margin, Quality quality, string? reason) =>
        new(record.Vat.Id, FromOthers, Quantity.Orp, new Stamp(look.Utc, look.Utc - record.From, true), null, margin, quality, reason, null);
}
