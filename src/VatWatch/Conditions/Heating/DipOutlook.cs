using VatWatch.Conditions.Reduction;
using VatWatch.Science.Heat;
using VatWatch.Science.Heat.Model;

namespace VatWatch.Conditions.Heating;

/// <summary>What a dip will do to a vat, before the yarn goes in. From what was learned of its heat and how ORP came back before. Immutable.</summary>
/// <param name="Drop">How much the liquor cools, K.</param>
/// <param name="After">Where it then stands, °C; the low edge is the coldest.</param>
/// <param name="Recovery">Time for the heater to bring it back to where it was; null when it does not.</param>
/// <param name="FewestDips">Dips before the vat should rest, with the heavier yarn and the weaker heater.</param>
/// <param name="MostDips">The same, with the lighter yarn and the stronger heater.</param>
/// <param name="OrpBack">Middle time that ORP took to come back after the dips so far; null when none came back.</param>
/// <param name="OrpDips">How many dips that rests on.</param>
/// <param name="Assumptions">What the figures rest on, a sentence each, in the dyer's units.</param>
public sealed record DipOutlook(
    ValueRange Drop, ValueRange After, Forecast? Recovery, int FewestDips, int MostDips, TimeSpan? OrpBack, int OrpDips, IReadOnlyList<string> Assumptions)
{
    /// <summary>Drained yarn carries so many times its dry weight of water: an estimate of the trade (<see cref="WetYarn"/>).</summary>
    public const double LeastWater = 1.5;

    /// <summary>The same, dripping.</summary>
    public const double MostWater = 3;

    /// <summary>Taken for a dip before there was one: common practice, no source.</summary>
    public static TimeSpan UsualDip { get; } = TimeSpan.FromMinutes(10);

    /// <summary>A band of 90 % in standard deviations.</summary>
    private const double BandScale = 1.645;

    /// <summary>Works it out.</summary>
    /// <param name="heat">What was learned of the vat.</param>
    /// <param name="liquorC">Liquor now, °C.</param>
    /// <param name="lowestC">Coldest liquor to dye in, °C.</param>
    /// <param name="yarnGrams">Dry weight of the yarn of one dip, g; above 0.</param>
    /// <param name="dip">Usual length of a dip; null when not known.</param>
    /// <param name="airing">Usual time between dips; null when not known.</param>
    /// <param name="recoveries">How ORP came back after the dips so far.</param>
    /// <param name="units">The dyer's units.</param>
    public static DipOutlook Of(
        HeatOutlook heat, double liquorC, double lowestC, double yarnGrams, TimeSpan? dip, TimeSpan? airing, IReadOnlyList<Recovery> recoveries, DisplayUnits units)
    {
        var kg = yarnGrams / 1000;
        var yarnC = Math.Clamp(heat.RoomC, 0, 60);
        var (light, heavy) = (new WetYarn(kg, LeastWater * kg, yarnC), new WetYarn(kg, MostWater * kg, yarnC));
        var length = dip ?? UsualDip;
        var weakest = new DipPlan(Vat(heat, -1), heavy, lowestC, length, airing ?? length);
        var likely = new DipPlan(Vat(heat, 0), new WetYarn(kg, (LeastWater + MostWater) / 2 * kg, yarnC), lowestC, length, airing ?? length);
        var strongest = new DipPlan(Vat(heat, 1), light, lowestC, length, airing ?? length);
        var drop = new ValueRange(light.DropK(heat.CapacityJPerK, liquorC), heavy.DropK(heat.CapacityJPerK, liquorC));
        var back = recoveries.Select(one => one.Time).OfType<TimeSpan>().Order().ToList();
        return new(
            drop,
            new ValueRange(liquorC - drop.High, liquorC - drop.Low),
            likely.Recovery(liquorC) is { } middle ? new Forecast(strongest.Recovery(liquorC) ?? middle, middle, Soon(weakest.Recovery(liquorC))) : null,
            weakest.DipsBeforeRest(liquorC),
            strongest.DipsBeforeRest(liquorC),
            back.Count > 0 ? back[back.Count / 2] : null,
            back.Count,
            [.. Words(yarnGrams, yarnC, lowestC, length, dip is null, airing ?? length, units)]);
    }

    /// <summary>Nobody waits longer for the next dip; it is then said that the vat may not come back.</summary>
    private static readonly TimeSpan LongestWait = TimeSpan.FromHours(6);

    private static TimeSpan? Soon(TimeSpan? time) => time <= LongestWait ? time : null;

    /// <summary>The vat with its heater on, at one edge of what was learned.</summary>
    private static FirstOrderVat Vat(HeatOutlook heat, int edge) => new(
        Math.Max(0, heat.HeaterPower.Watts + edge * BandScale * heat.HeaterPower.Sigma),
        Math.Max(0, heat.Loss.WattsPerKelvin - edge * BandScale * heat.Loss.Sigma),
        heat.CapacityJPerK,
        heat.RoomC);

    private static IEnumerable<string> Words(double yarnGrams, double yarnC, double lowestC, TimeSpan dip, bool isAssumed, TimeSpan airing, DisplayUnits units)
    {
        yield return $"{units.Goods(yarnGrams)} of dry yarn carries {units.Goods(LeastWater * yarnGrams)} to {units.Goods(MostWater * yarnGrams)} of water once drained, and is as warm as the room, {units.Temperature(yarnC)}.";
        yield return "The heater is on while no yarn is in, as strong as it was learned to be.";
        yield return isAssumed
            ? $"No dip of this session is over yet, so dips of {DisplayUnits.Duration(dip)} with as long between them are taken."
            : $"Dips of {DisplayUnits.Duration(dip)} with {DisplayUnits.Duration(airing)} between them, as in this session; each with freshly wetted yarn. The same yarn again cools the vat less.";
        yield return $"A dip wants at least {units.Temperature(lowestC)}, and after {DisplayUnits.Duration(DipPlan.WorkingTime)} of work the vat rests in any case. What the dips cost in reducing agent is not counted.";
    }
}
