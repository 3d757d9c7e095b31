namespace VatWatch.Plans.Warm;

/// <summary>What a kept plan foretold of one warm-up when its heater became due, kept to be held against what came. Times are UTC; the range holds about 90 %. Immutable.</summary>
/// <param name="Wish">When the vat was to be warm.</param>
/// <param name="TargetC">How warm, °C.</param>
/// <param name="SwitchOn">When the heater was to go on.</param>
/// <param name="Ready">When the liquor is warm by the best estimate, switched on then.</param>
/// <param name="Early">Earliest of the same.</param>
/// <param name="Late">Latest of the same; null where it may be much later.</param>
public sealed record ForetoldWarmUp(DateTimeOffset Wish, double TargetC, DateTimeOffset SwitchOn, DateTimeOffset Ready, DateTimeOffset Early, DateTimeOffset? Late)
{
    public static ForetoldWarmUp Of(WarmPlan plan, DateTimeOffset wish) => new(wish, plan.Wish.TargetC, plan.SwitchOn, plan.SwitchOff, plan.ReadyEarly, plan.ReadyLate);
}
