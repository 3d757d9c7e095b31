using VatWatch.Nights.Scenes;
using VatWatch.Plans.Warm;

namespace VatWatch.Nights.Scoring;

/// <summary>How well plans foretell the warm-up of the third night of a vat.</summary>
/// <param name="LateMinutes">How long after the wish the thermometer showed the target; negative for before it.</param>
/// <param name="EarlyMinutes">The early edge of the plan's own range after the wish, and the late one; the late one is infinite where it may be much later.</param>
internal sealed record PlanScore(int Seed, string Story, double PlannedMinutes, double LateMinutes, double EarlyMinutes, double LateEdgeMinutes, double FromC, double WasC)
{
    public bool IsInItsRange => LateMinutes >= EarlyMinutes && LateMinutes <= LateEdgeMinutes;

    /// <summary>The plan of the evening, kept to; null when it was refused.</summary>
    public static PlanScore? OfEvening(int seed)
    {
        var night = PlannedNight.Make(seed);
        var watched = new WatchedStudio(night.Studio);
        return watched.Plan(night.Target) is { } plan ? Score(seed, night, watched, plan) : null;
    }

    /// <summary>The plan as the watch renews it until the heater is due; null when it was refused.</summary>
    public static PlanScore? OfReminder(int seed)
    {
        var night = PlannedNight.Make(seed);
        var watched = new WatchedStudio(night.Studio);
        WarmPlan? plan = null;
        while (watched.Plan(night.Target) is { } renewed)
        {
            plan = renewed;
            var left = (plan.SwitchOn - night.Studio.Now).TotalMinutes;
            if (left < 1)
                break;
            night.Studio.Pass(Math.Clamp(left / 2, 1, 30));
        }

        return plan is null ? null : Score(seed, night, watched, plan);
    }

    private static PlanScore Score(int seed, PlannedNight night, WatchedStudio watched, WarmPlan plan)
    {
        var studio = night.Studio;
        studio.Pass(Math.Max(0, (plan.SwitchOn - studio.Now).TotalMinutes));
        var was = studio.Shown;
        var took = night.Warm() ?? 14 * 60;
        var late = (studio.Now - watched.Ready).TotalMinutes;
        var heat = watched.Heat!;
        return new PlanScore(
            seed,
            $"{studio.Story()}; {heat.PowerW:0} W {heat.PowerSigmaW:0}, {heat.LossWPerK:0.00} W/K {heat.LossSigmaWPerK:0.00}, seen {string.Join(", ", watched.Seen.WarmUps.Select(one => $"{one.Points[0].C:0.0}-{one.Points[^1].C:0.0} {60 * one.Points[^1].Hours:0} min"))}, room {heat.RoomC:0.0} was {studio.Room.Celsius:0.0}",
            (plan.SwitchOff - plan.SwitchOn).TotalMinutes,
            late,
            (plan.ReadyEarly - watched.Ready).TotalMinutes,
            plan.ReadyLate is { } edge ? (edge - watched.Ready).TotalMinutes : double.PositiveInfinity,
            plan.SwitchOnC,
            was);
    }
}
