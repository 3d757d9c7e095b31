using VatWatch.Conditions.Heating.Learning;
using VatWatch.Science.Heat.Model;

namespace VatWatch.Plans.Warm;

/// <summary>
/// Plans a warm-up on a vat's heat: the liquor cools until the heater goes on, then warms, both as one mixed mass with constant losses (heat-balance reference,
/// equations 2 to 4). Pure: no clock, no store.
/// </summary>
/// <param name="units">The dyer's units, for refusals.</param>
/// <param name="zone">The dyer's clock, for refusals.</param>
/// <param name="seen">What its thermometer showed lately.</param>
public sealed class WarmPlanner(VatDefinition vat, VatHeat heat, DisplayUnits units, TimeZoneInfo zone, SeenHeat seen)
{
    /// <summary>Half-width of a 90 % band in standard deviations, and of one that is hardly ever left.</summary>
    private const double BandSigmas = 1.645;
    private const double SureSigmas = 2.2;

    /// <summary>A vat is not to be later than this even where much goes against it: a plan that is less sure begins earlier, but not by more than the other, for a vat that stands hot oxidises.</summary>
    private static readonly TimeSpan Bearable = TimeSpan.FromMinutes(30);
    private static readonly TimeSpan MostAhead = TimeSpan.FromMinutes(20);

    /// <summary>
    /// Deviation of a warm-up from the model as a share of its time, before and after two nights were learned: layers, stirring, the lid (heat-balance reference: 2 to 3 %; with
    /// these the bands hold what they say on a second physics).
    /// </summary>
    private const double FirstModelShare = 0.05;
    private const double LearnedModelShare = 0.027;

    /// <summary>Mains that differ by 1 % change the power by 2 %, and one night's room is not another's, K: much for a heater that hardly keeps up with the losses. The same.</summary>
    private const double MainsShare = 0.016;
    private const double NightRoomSigmaK = 1.2;

    /// <summary>And of the thermometer's place and lag, min.</summary>
    private const double PlaceSigmaMinutes = 2;

    /// <summary>How far the cooling before a warm-up may differ from what was foretold, as a share of it.</summary>
    private const double CoolingShare = 0.14;

    private const double LeastRateKPerS = 0.5 / 3600;

    /// <summary>A plan further ahead foretells nothing.</summary>
    private static readonly TimeSpan Horizon = TimeSpan.FromHours(48);

    /// <summary>Missed by less than a clock shows.</summary>
    private static readonly TimeSpan Tolerance = TimeSpan.FromSeconds(30);

    private readonly FirstOrderVat _on = SeenWarmUp.Balance(seen.WarmUps, new(heat.PowerW, heat.LossWPerK, heat.CapacityJPerK, heat.RoomC));
    private readonly bool _isLearned = seen.WarmUps.Count >= 2;

    /// <summary>The plan, or why there is none, as a sentence.</summary>
    public (WarmPlan? Plan, string? Refused) Plan(WarmWish wish)
    {
        if (Refusal(wish) is { } refused)
        {
            return (null, refused);
        }

        var off = new UnheatedVat(vat, heat, seen, wish, zone);
        var on = On(off);
        if (on.Time(wish.Now, wish.LiquorC, wish.TargetC) is not { } atOnce)
        {
            return (null, $"{vat.Name} does not get to {units.Temperature(wish.TargetC)}: with its heater on it levels off at about {units.Temperature(_on.FinalC)} in a room of {units.Temperature(heat.RoomC)}.");
        }

        if (wish.Now + atOnce > wish.Ready + Tolerance)
        {
            return (null, TooSoon(wish, atOnce));
        }

        return (Plan(off, on, atOnce), null);
    }

    /// <summary>When the vat would be warm if the heater went on at once, UTC; null when it never would.</summary>
    public DateTimeOffset? Earliest(WarmWish wish) => heat.HeaterIsKnown ? wish.Now + On(new(vat, heat, seen, wish, zone)).Time(wish.Now, wish.LiquorC, wish.TargetC) : null;

    /// <summary>What a vat loses beyond what is usual with a lid is vapour.</summary>
    private HeatedVat On(UnheatedVat off) => new(Math.Min(off.LossPerHour, HeatPrior.Of(vat).LossWPerK / heat.CapacityJPerK * 3600), seen, zone, (fromC, targetC) => WarmUp(_on, fromC, targetC));

    private WarmPlan Plan(UnheatedVat off, HeatedVat on, TimeSpan atOnce)
    {
        var wish = off.Wish;
        var likely = Latest(off, (at, fromC) => on.Time(at, fromC, wish.TargetC)) ?? wish.Now;
        var sure = Latest(off, (at, fromC) => on.Time(at, fromC, wish.TargetC) is { } time ? time + TimeMath.Max(TimeSpan.Zero, (Late(wish, fromC, time, SureSigmas) ?? time) - Bearable) : null) ?? wish.Now;
        var switchOn = TimeMath.Max(wish.Now, TimeMath.Max(likely - MostAhead, sure < likely ? sure : likely));
        var fromC = off.CooledTo(switchOn);
        var takes = on.Time(switchOn, fromC, wish.TargetC) ?? TimeSpan.Zero;
        var (weakest, strongest) = (Edge(fromC, wish.TargetC, -BandSigmas), Edge(fromC, wish.TargetC, BandSigmas));
        return new WarmPlan
        {
            Wish = wish,
            SwitchOn = switchOn,
            SwitchOnC = fromC,
            Ahead = likely - switchOn,
            SwitchOff = switchOn + takes,
            SetToC = heat.ThermostatC is null ? null : wish.TargetC,
            ReadyEarly = switchOn + TimeMath.Max(TimeSpan.Zero, takes - Early(wish, fromC, takes)),
            ReadyLate = switchOn + takes + Late(wish, fromC, takes, BandSigmas),
            Earliest = wish.Now + atOnce,
            LatestSafe = Latest(off, (at, from) => on.Time(at, from, wish.TargetC) is { } time ? time + Late(wish, from, time, BandSigmas) : null),
            WithoutLid = heat.LidIsOff ? WithoutLid(fromC, wish.TargetC, takes) : null,
            LimitEarly = WarmUp(strongest, fromC, vat.Temperature.LimitC) is { } there ? switchOn + there : null,
            KilowattHours = Energy(_on, fromC, wish.TargetC),
            KilowattHoursLow = Energy(strongest, fromC, wish.TargetC),
            KilowattHoursHigh = Math.Max(Energy(weakest, fromC, wish.TargetC), Energy(_on, fromC, wish.TargetC)),
        };
    }

    private string? Refusal(WarmWish wish) => wish switch
    {
        _ when !heat.HeaterIsKnown => $"The heater of {vat.Name} is not known: say its power, such as \"1500 W\", in the configuration or with --heater, or let VatWatch watch it warm the vat once.",
        _ when !(wish.TargetC < vat.Temperature.LimitC) =>
            $"{units.Temperature(wish.TargetC)} is not below the limit of {vat.Name}, {units.Temperature(vat.Temperature.LimitC)}; wish for less.",
        _ when wish.Ready - wish.Now > Horizon => $"That is more than {Horizon.TotalHours:0} h ahead, which nobody can foretell; when to switch on is said nearer the day.",
        _ => null,
    };

    private string TooSoon(WarmWish wish, TimeSpan atOnce)
    {
        var early = Clock(wish.Now + TimeMath.Max(TimeSpan.Zero, atOnce - Early(wish, wish.LiquorC, atOnce)));
        var late = Late(wish, wish.LiquorC, atOnce, BandSigmas) is { } after ? $"to {Clock(wish.Now + atOnce + after)}" : "or much later";
        return $"{vat.Name} cannot be at {units.Temperature(wish.TargetC)} by {Clock(wish.Ready)}: it is at {units.Temperature(wish.LiquorC)}, and switched on now it is ready at about {Clock(wish.Now + atOnce)} ({early} {late}).";

        string Clock(DateTimeOffset at) => WallTime.Near(at, wish.Now, zone);
    }

    /// <summary>The latest moment from which a warm-up of that length is over in time; null when even one begun now is not.</summary>
    private static DateTimeOffset? Latest(UnheatedVat off, Func<DateTimeOffset, double, TimeSpan?> takes)
    {
        var wish = off.Wish;
        var (low, high) = (TimeSpan.Zero, wish.Ready - wish.Now);
        if (!InTime(low))
        {
            return null;
        }

        for (var i = 0; i < 40 && high - low > TimeSpan.FromSeconds(1); i++)
        {
            var middle = (low + high) / 2;
            (low, high) = InTime(middle) ? (middle, high) : (low, middle);
        }

        return wish.Now + low;

        bool InTime(TimeSpan after) => takes(wish.Now + after, off.CooledTo(wish.Now + after)) is { } time && wish.Now + after + time <= wish.Ready;
    }

    private static TimeSpan? WarmUp(FirstOrderVat vat, double fromC, double targetC) =>
        fromC >= targetC ? TimeSpan.Zero
        : vat.TryTimeTo(fromC, targetC, out var seconds) && seconds < Horizon.TotalSeconds ? TimeSpan.FromSeconds(seconds)
        : null;

    /// <summary>By how much a warm-up may be over before its best estimate.</summary>
    private TimeSpan Early(WarmWish wish, double fromC, TimeSpan takes) => Band(wish, fromC, takes, BandSigmas) ?? TimeSpan.Zero;

    /// <summary>By how much after it; null where that heater may never get there.</summary>
    private TimeSpan? Late(WarmWish wish, double fromC, TimeSpan takes, double sigmas) => Band(wish, fromC, takes, -sigmas);

    /// <summary>What heater and room do to a warm-up at so many standard deviations, with what the model leaves out; null for never.</summary>
    private TimeSpan? Band(WarmWish wish, double fromC, TimeSpan takes, double sigmas)
    {
        if (takes == TimeSpan.Zero)
        {
            return TimeSpan.Zero;
        }

        if (WarmUp(Edge(fromC, wish.TargetC, sigmas), fromC, wish.TargetC) is not { } edge || WarmUp(_on, fromC, wish.TargetC) is not { TotalSeconds: > 0 } middle)
        {
            return null;
        }

        var heater = (edge / middle - 1) * takes.TotalSeconds;
        var model = sigmas * (_isLearned ? LearnedModelShare : FirstModelShare) * takes.TotalSeconds;
        var place = sigmas * 60 * PlaceSigmaMinutes;
        var cooling = sigmas * CoolingShare * Math.Max(0, wish.LiquorC - fromC) / Math.Max(LeastRateKPerS, _on.RateKPerS(fromC));
        return TimeSpan.FromSeconds(Math.Sqrt(heater * heater + model * model + place * place + cooling * cooling));
    }

    /// <summary>The vat on a night whose mains, room and, as long as they were not seen, heater and losses are so many standard deviations better than taken.</summary>
    private FirstOrderVat Edge(double fromC, double toC, double sigmas)
    {
        var aboveK = Math.Max(0, (fromC + toC) / 2 - _on.AmbientC);
        var (mains, room) = (MainsShare * _on.PowerW, NightRoomSigmaK * _on.LossWPerK);
        var (power, loss) = _isLearned ? (0, 0) : (heat.PowerSigmaW, heat.LossSigmaWPerK * aboveK);
        return new(Math.Max(0, _on.PowerW + sigmas * Math.Sqrt(mains * mains + room * room + power * power + loss * loss)), _on.LossWPerK, _on.CapacityJPerK, _on.AmbientC);
    }

    private TimeSpan? WithoutLid(double fromC, double targetC, TimeSpan takes)
    {
        var warmC = (vat.Temperature.LowC + vat.Temperature.HighC) / 2;
        var open = new FirstOrderVat(_on.PowerW, heat.OpenLossWPerK * (warmC - heat.LikelyRoomC) / Math.Max(1, warmC - _on.AmbientC), _on.CapacityJPerK, _on.AmbientC);
        return WarmUp(open, fromC, targetC) is { } slow && WarmUp(_on, fromC, targetC) is { TotalSeconds: > 0 } usual ? takes * (slow / usual) : null;
    }

    private static double Energy(FirstOrderVat vat, double fromC, double targetC) => vat.PowerW * (WarmUp(vat, fromC, targetC)?.TotalHours ?? 0) / 1000;
}
