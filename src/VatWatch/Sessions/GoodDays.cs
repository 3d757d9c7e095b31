using VatWatch.Conditions.Reduction;
using VatWatch.Measurements;
using VatWatch.Sessions.Entries;

namespace VatWatch.Sessions;

/// <summary>
/// Picks from the measurements of a good session what shows the vat in condition: once a minute pH, ORP and temperature together, in the band, with no yarn in
/// it and none just out of it. Pure. Twenty minutes to settle is an engineering choice: reducing agents act within 20 to 60 min at 40 to 50 °C (common practice).
/// </summary>
public static class GoodDays
{
    private static readonly TimeSpan Settling = TimeSpan.FromMinutes(20);
    private static readonly TimeSpan OneMinute = TimeSpan.FromMinutes(1);

    /// <summary>Readings of one session.</summary>
    /// <param name="measurements">Its measurements in order of their labels; streamed once.</param>
    public static IEnumerable<GoodReading> Readings(VatDefinition vat, IEnumerable<Measurement> measurements, IReadOnlyCollection<SessionEntry> entries)
    {
        var unsettled = Unsettled(entries);
        var newest = new Dictionary<Quantity, Measurement>();
        var next = DateTimeOffset.MinValue;
        foreach (var measurement in measurements)
        {
            if (measurement.GoodValue is null)
            {
                newest.Remove(measurement.Quantity);
                continue;
            }

            newest[measurement.Quantity] = measurement;
            var now = measurement.Stamp.Utc;
            if (now < next || unsettled.Any(span => now >= span.From && now < span.To) || Together(vat, newest, now) is not { } reading)
            {
                continue;
            }

            next = now + OneMinute;
            yield return reading;
        }
    }

    private static GoodReading? Together(VatDefinition vat, Dictionary<Quantity, Measurement> newest, DateTimeOffset now)
    {
        double? Fresh(Quantity measures) =>
            newest.TryGetValue(measures, out var one) && now - one.Stamp.Utc <= Holds(vat, one.Probe) ? one.GoodValue : null;

        return Fresh(Quantity.Temperature) is { } liquorC && liquorC >= vat.Temperature.LowC && liquorC <= vat.Temperature.LimitC
            && Fresh(Quantity.Ph) is { } ph && Fresh(Quantity.Orp) is { } orp
            ? new GoodReading(orp, ph, liquorC)
            : null;
    }

    private static TimeSpan Holds(VatDefinition vat, ProbeId probe)
    {
        var every = vat.Probes.FirstOrDefault(one => one.Id == probe)?.Every ?? OneMinute;
        return every * 3 > OneMinute ? every * 3 : OneMinute;
    }

    private static List<(DateTimeOffset From, DateTimeOffset To)> Unsettled(IReadOnlyCollection<SessionEntry> entries)
    {
        var spans = SessionTally.Of(entries).Dips.Select(dip => (dip.In.Utc, dip.Out is { } taken ? taken.Utc + Settling : DateTimeOffset.MaxValue)).ToList();
        spans.AddRange(entries
            .Where(entry => entry.Kind is EntryKind.Added or EntryKind.Stirred && entry.Withdrawn is null)
            .Select(entry => (entry.At.Utc, entry.At.Utc + Settling)));
        return spans;
    }
}
