using VatWatch.Science.Heat.Model;

namespace VatWatch.Science.Heat;

/// <summary>
/// How many dips a vat has in it before it should rest. The rule: a dip needs the liquor at or above <see cref="LowestC"/> once the yarn is in; the heater works
/// only while no yarn is in; and after <see cref="WorkingTime"/> the vat rests in any case (Mairet, A Book on Vegetable Dyes, 1916: an hour's rest after three
/// hours' work). What reducing agent the dips cost is not counted: a greenish liquor or a risen ORP ends the work sooner.
/// </summary>
/// <param name="Vat">The vat with its heater on.</param>
/// <param name="Yarn">What each dip puts in, freshly wetted.</param>
/// <param name="LowestC">Lowest temperature to dye at, °C.</param>
/// <param name="Dip">Time in the liquor, above zero.</param>
/// <param name="Airing">Time between dips, zero or more; usually as long as the dip.</param>
public sealed record DipPlan(FirstOrderVat Vat, WetYarn Yarn, double LowestC, TimeSpan Dip, TimeSpan Airing)
{
    /// <summary>Work after which a vat rests.</summary>
    public static TimeSpan WorkingTime { get; } = TimeSpan.FromHours(3);

    /// <summary>Dips before the rest, from a vat at <paramref name="startC"/>; 0 if the first would be too cold already.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A dip of no length, a negative airing, or a temperature that is not one.</exception>
    public int DipsBeforeRest(double startC)
    {
        Wanted.Positive(Dip.TotalSeconds, "s", nameof(Dip));
        Wanted.NotNegative(Airing.TotalSeconds, "s", nameof(Airing));
        var unheated = new FirstOrderVat(0, Vat.LossWPerK, Vat.CapacityJPerK, Vat.AmbientC);
        var most = (int)Math.Min(WorkingTime / (Dip + Airing), int.MaxValue);
        var now = Wanted.Finite(startC, "°C");
        for (var dips = 0; dips < most; dips++)
        {
            var wetted = now - Yarn.DropK(Vat.CapacityJPerK, now);
            if (wetted < LowestC)
                return dips;

            now = Vat.TemperatureAfter(unheated.TemperatureAfter(wetted, Dip.TotalSeconds), Airing.TotalSeconds);

            // A thermostat set to the start holds it there.
            now = Math.Min(now, Math.Max(startC, wetted));
        }

        return most;
    }

    /// <summary>Time the heater needs to bring the vat back to <paramref name="vatC"/> after one dip; null if it never does.</summary>
    public TimeSpan? Recovery(double vatC)
    {
        var wetted = vatC - Yarn.DropK(Vat.CapacityJPerK, vatC);
        return Vat.TryTimeTo(wetted, vatC, out var seconds) && seconds < TimeSpan.MaxValue.TotalSeconds ? TimeSpan.FromSeconds(seconds) : null;
    }
}
