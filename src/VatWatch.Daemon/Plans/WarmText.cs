using VatWatch.Plans.Warm;

namespace VatWatch.Daemon.Plans;

/// <summary>A warm-up plan in words, for the verb and the page.</summary>
/// <param name="heat">What the plan rests on.</param>
public sealed class WarmText(VatDefinition vat, VatHeat heat, WarmPlan plan, DisplayUnits units, TimeZoneInfo zone)
{
    private const double BandSigmas = 1.645;

    /// <summary>When to switch on, with the warmth that the liquor has then.</summary>
    public string SwitchOn => $"{DayAndClock(plan.SwitchOn)}, the liquor then at {units.Temperature(plan.SwitchOnC)}";

    /// <summary>What to do and when, each line with its name.</summary>
    public IEnumerable<(string Name, string Value)> Lines()
    {
        yield return ("switch on", SwitchOn);
        yield return ("safe to promise", plan.LatestSafe is { } safe
            ? $"if it is on by {Clock(safe)}"
            : "not even when switched on now: the slowest plausible warm-up comes too late");
        yield return ("ready", $"at {units.Temperature(plan.Wish.TargetC)} by {DayAndClock(plan.Wish.Ready)}; may be {Clock(plan.ReadyEarly)} {(plan.ReadyLate is { } late ? $"to {Clock(late)}" : "or much later")}");
        if (plan.Ahead >= TimeSpan.FromMinutes(1))
        {
            yield return ("in hand", $"{DisplayUnits.Duration(plan.Ahead)} before the best estimate wants it, because the range is wide");
        }

        yield return ("switch off", plan.SetToC is { } set
            ? $"by its thermostat, set to {units.Temperature(set)}; else at {Clock(plan.SwitchOff)}"
            : $"at {Clock(plan.SwitchOff)}; no thermostat was seen to do it");
        yield return ("energy", $"{plan.KilowattHours:0.0} kWh{(plan.KilowattHoursHigh - plan.KilowattHoursLow < 0.1 ? "" : $" ({plan.KilowattHoursLow:0.0} to {plan.KilowattHoursHigh:0.0})")}");
        yield return ("earliest", $"{Clock(plan.Earliest)}, if it were switched on now");
    }

    /// <summary>What it rests on, a sentence each.</summary>
    public IEnumerable<string> Assumptions()
    {
        var power = Band(heat.PowerW, heat.PowerSigmaW);
        yield return heat.PowerIsTold
            ? $"The heater gives the liquor {heat.PowerW:0} W, as its plate says; mains and cord may make it {power.Low:0} to {power.High:0} W."
            : $"The heater gives the liquor {heat.PowerW:0} W ({power.Low:0} to {power.High:0}), {Learned}.";
        var loss = Band(heat.LossWPerK, heat.LossSigmaWPerK);
        var (turned, unit) = (units.FromKelvinDifference(1), units.TemperatureUnit);
        yield return $"The vat loses {heat.LossWPerK / turned:0.0} W for each {unit} above the room ({loss.Low / turned:0.0} to {loss.High / turned:0.0}), with its lid as it usually is, {(heat.Nights > 0 || !heat.PowerIsTold ? Learned : "as a vat of its size may")}.";
        yield return heat.RoomIsMeasured
            ? $"The room is at {units.Temperature(heat.RoomC)}."
            : $"No probe tells the room: it is taken to be at about {units.Temperature(heat.LikelyRoomC)} by night.";
        yield return $"The liquor is at {units.Temperature(plan.Wish.LiquorC)} now; it is stirred before the heater goes on, and until it is warm nobody opens the lid, adds water or puts yarn in.";
        if (heat.LidIsOff)
        {
            var takes = DisplayUnits.Duration(plan.SwitchOff - plan.SwitchOn);
            yield return $"The lid is off now: put it on before the heater goes on. {(plan.WithoutLid is { } open ? $"Without it the warm-up takes about {DisplayUnits.Duration(open)} instead of {takes}" : "Without it the liquor does not get so warm")}.";
        }

        if (plan.LimitEarly is { } limit)
        {
            yield return $"Left on, the heater could bring the liquor to its limit of {units.Temperature(vat.Temperature.LimitC)} from {Clock(limit)} on.";
        }
    }

    /// <summary>A time of day of the dyer.</summary>
    public string Clock(DateTimeOffset at) => PlanClock.Local(at, zone).ToString("HH:mm");

    private string Learned => heat.Nights > 0 ? $"learned in {DisplayUnits.Count(heat.Nights, "night")}" : "by what was seen so far";

    private string DayAndClock(DateTimeOffset at) => WallTime.Near(PlanClock.Local(at, zone), plan.Wish.Now, zone);

    private static (double Low, double High) Band(double value, double sigma) => (Math.Max(0, value - BandSigmas * sigma), value + BandSigmas * sigma);
}
