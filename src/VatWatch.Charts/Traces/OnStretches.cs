using VatWatch.Measurements;

namespace VatWatch.Charts.Traces;

/// <summary>When a switched thing (1 on, 0 off) was on.</summary>
/// <param name="Stretches">Start and end of each, UTC, in order of time.</param>
/// <param name="Total">Together, by the steadier of the two clocks.</param>
internal sealed record OnStretches(IReadOnlyList<(DateTimeOffset From, DateTimeOffset To)> Stretches, TimeSpan Total)
{
    /// <summary>On from a good reading that says so until the next reading; nothing is claimed across a gap.</summary>
    public static OnStretches Of(ProbeTrace trace)
    {
        var stretches = new List<(DateTimeOffset From, DateTimeOffset To)>();
        var total = TimeSpan.Zero;
        Measurement? before = null;
        foreach (var reading in trace.Readings)
        {
            if (before?.GoodValue is { } share && QuantityText.IsHeating(share) && Elapsed.Between(before.Stamp, reading.Stamp) is var length && length <= trace.LongestStep)
            {
                total += length;
                if (stretches.Count > 0 && stretches[^1].To == before.Stamp.Utc)
                    stretches[^1] = (stretches[^1].From, reading.Stamp.Utc);
                else
                    stretches.Add((before.Stamp.Utc, reading.Stamp.Utc));
            }

            before = reading;
        }

        return new OnStretches(stretches, total);
    }
}
