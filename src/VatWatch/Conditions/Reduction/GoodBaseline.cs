using VatWatch.Science.Carbonate.SodaAsh;
using VatWatch.Science.Indigo;

namespace VatWatch.Conditions.Reduction;

/// <summary>
/// What a vat shows on its good days: median and spread of ORP and pH, both brought to one temperature and one pH so that days compare. Published
/// potentials rarely name their electrode, so the vat's own good days are the best measure of it.
/// </summary>
/// <param name="OrpMillivolts">Median ORP at <paramref name="PhAt45"/> and 45 °C, mV against the vat's reference electrode.</param>
/// <param name="OrpSpreadMillivolts">Spread (1.4826 times the median deviation), at least 5 mV.</param>
/// <param name="PhAt45">Median pH at 45 °C.</param>
/// <param name="PhSpread">Its spread, at least 0.05.</param>
/// <param name="Readings">Readings behind it.</param>
public sealed record GoodBaseline(double OrpMillivolts, double OrpSpreadMillivolts, double PhAt45, double PhSpread, int Readings)
{
    /// <summary>Temperature at which baselines are kept, °C.</summary>
    public const double AtC = 45;

    /// <summary>Fewer readings make no baseline.</summary>
    public const int LeastReadings = 20;

    private const double LeastOrpSpread = 5;
    private const double LeastPhSpread = 0.05;

    /// <summary>From the readings of good sessions; null with fewer than <see cref="LeastReadings"/>.</summary>
    public static GoodBaseline? Of(IReadOnlyCollection<GoodReading> readings)
    {
        if (readings.Count < LeastReadings)
        {
            return null;
        }

        var (ph, phSpread) = MedianAndSpread(readings.Select(reading => UsedBath.PhAt(reading.Ph, reading.TemperatureC, AtC)));
        var (orp, orpSpread) = MedianAndSpread(readings.Select(reading => Brought(reading.OrpMillivolts, reading.Ph, reading.TemperatureC, ph)));
        return new GoodBaseline(orp, Math.Max(orpSpread, LeastOrpSpread), ph, Math.Max(phSpread, LeastPhSpread), readings.Count);
    }

    /// <summary>How far a reading is from the good days.</summary>
    /// <param name="orpMillivolts">ORP, mV against the vat's reference electrode.</param>
    /// <param name="ph">pH at <paramref name="liquorC"/>, 0 to 14.</param>
    /// <param name="liquorC">Liquor, °C, 0 to 100.</param>
    public BaselineDistance DistanceOf(double orpMillivolts, double ph, double liquorC)
    {
        var orp = Brought(orpMillivolts, ph, liquorC, PhAt45) - OrpMillivolts;
        var phOff = UsedBath.PhAt(ph, liquorC, AtC) - PhAt45;
        return new BaselineDistance(orp, orp / OrpSpreadMillivolts, phOff, phOff / PhSpread);
    }

    /// <summary>ORP as it would be at the baseline's pH and temperature with the same share of the dye reduced: it moves with the midpoint.</summary>
    private static double Brought(double orpMillivolts, double ph, double liquorC, double toPh) => orpMillivolts
        - MidpointModel.Default.MidpointMillivolts(ph, liquorC).Value + MidpointModel.Default.MidpointMillivolts(toPh, AtC).Value;

    private static (double Median, double Spread) MedianAndSpread(IEnumerable<double> values)
    {
        var sorted = values.Order().ToArray();
        var median = sorted[sorted.Length / 2];
        var deviations = sorted.Select(value => Math.Abs(value - median)).Order().ToArray();
        return (median, 1.4826 * deviations[deviations.Length / 2]);
    }
}

/// <summary>How far a vat is today from its good days.</summary>
/// <param name="OrpMillivolts">ORP less that of good days at the same pH and temperature, mV; above 0 weaker than usual.</param>
/// <param name="OrpSpreads">That in spreads of the good days.</param>
/// <param name="Ph">pH less that of good days, at one temperature.</param>
/// <param name="PhSpreads">That in spreads of the good days.</param>
public sealed record BaselineDistance(double OrpMillivolts, double OrpSpreads, double Ph, double PhSpreads);

/// <summary>One reading of a vat in a session that was marked good.</summary>
/// <param name="OrpMillivolts">ORP, mV against the vat's reference electrode.</param>
/// <param name="Ph">pH at <paramref name="TemperatureC"/>.</param>
/// <param name="TemperatureC">Liquor, °C.</param>
public readonly record struct GoodReading(double OrpMillivolts, double Ph, double TemperatureC);
