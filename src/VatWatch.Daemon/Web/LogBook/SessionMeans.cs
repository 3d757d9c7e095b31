using VatWatch.Store;
using VatWatch.Vats;

namespace VatWatch.Daemon.Web.LogBook;

/// <summary>How the liquor was while yarn was in it: means of the good readings of all dips.</summary>
/// <param name="TemperatureC">°C; null without a good reading.</param>
/// <param name="Ph">pH.</param>
/// <param name="OrpMillivolts">mV against the vat's reference electrode.</param>
public sealed record SessionMeans(double? TemperatureC, double? Ph, double? OrpMillivolts)
{
    internal static SessionMeans Of(StoreReader reader, SessionSheet sheet, DateTimeOffset now)
    {
        var sums = new Dictionary<Measures, (double Sum, int Count)>();
        foreach (var dip in sheet.Tally.Dips)
        {
            foreach (var one in reader.Measurements(sheet.Session.Vat, dip.In.Utc, dip.Out?.Utc ?? now))
            {
                if (one.GoodValue is { } value)
                {
                    var (sum, count) = sums.GetValueOrDefault(one.Measures);
                    sums[one.Measures] = (sum + value, count + 1);
                }
            }
        }

        double? Mean(Measures measures) => sums.TryGetValue(measures, out var known) ? known.Sum / known.Count : null;
        return new(Mean(Measures.Temperature), Mean(Measures.Ph), Mean(Measures.Orp));
    }
}
