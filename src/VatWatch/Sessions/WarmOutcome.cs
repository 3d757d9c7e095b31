using VatWatch.Plans;
using VatWatch.Plans.Warm;
using VatWatch.Sessions.Entries;
using VatWatch.Store;

namespace VatWatch.Sessions;

/// <summary>The warm-up before a session: what was wished and foretold, and what came. Times are UTC. Immutable.</summary>
/// <param name="Wish">When the vat was to be warm.</param>
/// <param name="TargetC">How warm, °C: as the plan wanted it, without a plan the lower edge of the band.</param>
/// <param name="Foretold">What a kept plan foretold; null without one.</param>
/// <param name="On">When the heater was entered as on; null when nobody entered it.</param>
/// <param name="At">When the liquor was so warm; null when it did not get there.</param>
/// <param name="WarmestC">Then how warm it got, °C; null where nothing was measured.</param>
public sealed record WarmOutcome(DateTimeOffset Wish, double TargetC, ForetoldWarmUp? Foretold, DateTimeOffset? On, DateTimeOffset? At, double? WarmestC)
{
    /// <summary>A heater that was switched on longer before has nothing to do with a session.</summary>
    private static readonly TimeSpan LongestWarmUp = TimeSpan.FromHours(24);

    /// <summary>Work may begin before the vat was to be warm; a later wish is for the next session.</summary>
    private static readonly TimeSpan LatestWish = TimeSpan.FromHours(3);

    /// <summary>A thermostat that is set to the wish may switch off so far below it, by another thermometer, K (common practice, no source).</summary>
    private const double NearK = 0.3;

    /// <summary>Reads it; null when nobody wished for a warm vat.</summary>
    /// <param name="liquor">Its thermometer; null without one.</param>
    public static WarmOutcome? Read(StoreReader reader, VatDefinition vat, ProbeId? liquor, Session session)
    {
        var (from, to, latest) = (session.Started.Utc - LongestWarmUp, session.Ended ?? session.Started.Utc + LongestWarmUp, session.Started.Utc + LatestWish);
        var switched = EntryTable.Between(reader, vat.Id, from, to).Where(entry => entry is { Kind: EntryKind.HeaterOn, Withdrawn: null }).ToList();
        var on = switched.LastOrDefault(entry => entry.ReadyBy <= latest);

        // A wish that was put off or kept anew the same night has its own.
        var foretold = on?.ReadyBy is { } said ? PlanTable.ForetoldIn(reader, vat.Id, said, said) : PlanTable.ForetoldIn(reader, vat.Id, from, latest);

        // A plan's own wish needs no words at the heater.
        on ??= switched.LastOrDefault(entry => entry.At.Utc <= foretold?.Wish);
        if ((on?.ReadyBy ?? foretold?.Wish) is not { } wish)
        {
            return null;
        }

        var targetC = foretold?.TargetC ?? vat.Temperature.LowC;
        var minutes = liquor is { } probe ? reader.Rollups(vat.Id, probe, on?.At.Utc ?? foretold!.SwitchOn, to, quarters: false) : [];
        var at = minutes.FirstOrDefault(minute => minute.Mean >= (foretold is null ? targetC : targetC - NearK))?.Start;
        return new(wish, targetC, foretold, on?.At.Utc, at, minutes.Max(minute => minute.Mean));
    }

    /// <summary>What was foretold beside what came, in words.</summary>
    public IEnumerable<(string What, string Foretold, string Came)> Rows(DisplayUnits units, TimeZoneInfo zone)
    {
        if (Foretold is not { } foretold)
        {
            yield return ("Warm", $"by {Clock(Wish)}", At is { } warm ? $"at {Clock(warm)}, {Against(warm - Wish)} the wish" : "not in this time");
            yield break;
        }

        yield return ("Heater on", Clock(foretold.SwitchOn), On is { } on ? $"{Clock(on)}, {Words(on - foretold.SwitchOn, "later", "earlier", "on time")}" : "not entered");
        if (On is { } began && At is { } ended)
        {
            // An entry that came late or early moves what may be expected of the plan as much.
            var (took, expected) = (ended - began, foretold.Ready - foretold.SwitchOn);
            var isIn = took >= foretold.Early - foretold.SwitchOn && !(took > foretold.Late - foretold.SwitchOn);
            yield return (
                "Warm-up",
                $"{DisplayUnits.Duration(expected)} ({DisplayUnits.Duration(foretold.Early - foretold.SwitchOn)} {(foretold.Late is { } late ? $"to {DisplayUnits.Duration(late - foretold.SwitchOn)}" : "or much longer")})",
                $"{DisplayUnits.Duration(took)}, {Words(took - expected, "longer", "shorter", "as foretold")}{(isIn ? "" : "; outside the range")}");
        }

        yield return (
            $"Ready at {units.Temperature(TargetC)}, wished by {Clock(Wish)}",
            $"{Clock(foretold.Ready)} ({Clock(foretold.Early)} {(foretold.Late is { } last ? $"to {Clock(last)}" : "or much later")})",
            At is { } ready ? $"{Clock(ready)}, {Against(ready - Wish)} the wish" : WarmestC is { } warmest ? $"not in this time; {units.Temperature(warmest)} at most" : "not measured");

        string Clock(DateTimeOffset moment) => TimeZoneInfo.ConvertTime(moment, zone).ToString("HH:mm");
    }

    private static string Against(TimeSpan after) => Words(after, "after", "before", "at");

    /// <summary>A difference, for example "12 min later"; <paramref name="none"/> below a minute.</summary>
    private static string Words(TimeSpan difference, string more, string less, string none) =>
        difference.Duration() < TimeSpan.FromMinutes(1) ? none : $"{DisplayUnits.Duration(difference.Duration())} {(difference > TimeSpan.Zero ? more : less)}";
}
