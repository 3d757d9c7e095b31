using VatWatch.Charts.Traces;
using VatWatch.Conditions.Heating;

namespace VatWatch.Charts.Figures;

/// <summary>How long a heater heated and what that took.</summary>
/// <param name="IsRead">Whether a heater probe says so; otherwise it was judged from how the liquor warmed.</param>
/// <param name="Watts">The power that is reckoned with, W; null when none is known.</param>
/// <param name="IsNameplate">Whether it is the configured one; otherwise it was learned, and leaves out what the heater loses before the liquor.</param>
internal sealed record HeatingAccount(TimeSpan On, bool IsRead, double? Watts, bool IsNameplate)
{
    // Looks further apart than so many steps have a gap between them.
    private const int StepsToAGap = 3;

    /// <summary>Energy, kWh; an estimate.</summary>
    public double? KilowattHours => Watts * On.TotalHours / 1000;

    /// <summary>The account of a record; null when nothing tells of the heater.</summary>
    public static HeatingAccount? Of(VatRecord record, IReadOnlyList<ProbeTrace> traces)
    {
        var heater = traces.FirstOrDefault(trace => trace.Quantity == Quantity.Heater);
        var heat = LastHeat(record);
        if (heater is null && heat is null)
            return null;
        var watts = record.Vat.HeaterWatts ?? (heat?.HeaterPower.Watts is > 0 and var learned ? learned : null);
        return new HeatingAccount(heater is null ? Judged(record) : OnStretches.Of(heater).Total, heater is not null, watts, record.Vat.HeaterWatts is not null);
    }

    /// <summary>What was known of the vat's heat at the end of the record.</summary>
    public static HeatOutlook? LastHeat(VatRecord record) => record.Conditions.LastOrDefault(condition => condition.Heat is not null)?.Heat;

    private static TimeSpan Judged(VatRecord record)
    {
        var looks = record.Conditions.Where(condition => condition.Stamp.Utc >= record.From && condition.Stamp.Utc <= record.To).ToArray();
        var longest = looks.Length < 2 ? TimeSpan.Zero : (looks[1].Stamp.Utc - looks[0].Stamp.Utc) * StepsToAGap;
        var on = TimeSpan.Zero;
        for (var i = 1; i < looks.Length; i++)
        {
            var length = looks[i].Stamp.Utc - looks[i - 1].Stamp.Utc;
            if (looks[i - 1].Heat?.HeaterOn == true && length <= longest)
                on += length;
        }

        return on;
    }
}
