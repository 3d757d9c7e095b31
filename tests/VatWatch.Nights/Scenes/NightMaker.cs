using VatWatch.Nights.Physics;
using VatWatch.Probes.Recorded;

namespace VatWatch.Nights.Scenes;

/// <summary>Makes the night of a seed. A draw in which the scene does not come about (a heater too weak to reach the limit, say) is thrown away and drawn anew.</summary>
internal static class NightMaker
{
    private const int MostDraws = 400;

    /// <summary>The reading must stay at its limit for this long to have crossed it.</summary>
    private static readonly TimeSpan Staying = TimeSpan.FromSeconds(10);

    public static MadeNight Make(int seed) => Make(seed, NightKinds.Of(seed));

    public static MadeNight Make(int seed, NightKind kind)
    {
        for (var draw = 0; draw < MostDraws; draw++)
        {
            var chance = new Chance(unchecked(seed * 1_000_003 + draw * 7919 + 17));
            if (Act(kind, chance) is { } scene && Finish(seed, kind, scene) is { } night)
                return night;
        }

        throw new InvalidOperationException($"seed {seed}: {MostDraws} draws and no night of kind {kind}");
    }

    private static Scene? Act(NightKind kind, Chance chance) => kind switch
    {
        NightKind.HealthyThermostat => SoundNights.WithThermostat(chance, coarse: false, nights: 3),
        NightKind.HealthyCoarse => SoundNights.WithThermostat(chance, coarse: true, nights: 2),
        NightKind.HealthyFixed => SoundNights.FixedPower(chance),
        NightKind.HealthyByHand => SoundNights.ByHand(chance, forgotten: false),
        NightKind.StandsStill => SoundNights.StandsStill(chance),
        NightKind.StuckFromStart => Runaways.StuckFromStart(chance),
        NightKind.StuckAfterNights => Runaways.StuckAfterNights(chance),
        NightKind.LeftOn => Runaways.LeftOn(chance),
        NightKind.ByHandThenForgotten => SoundNights.ByHand(chance, forgotten: true),
        NightKind.RelayWelded => Runaways.RelayWelded(chance),
        NightKind.FrozenHeating => Runaways.FrozenHeating(chance),
        NightKind.HeaterFails => Failures.HeaterFails(chance),
        NightKind.HalfPower => Failures.HalfPower(chance),
        NightKind.BreakerAtNight => Failures.BreakerAtNight(chance),
        NightKind.ProbeInAir => Failures.ProbeInAir(chance),
        NightKind.ProbeFallsOut => Failures.ProbeFallsOut(chance),
        NightKind.LidLeftOff => Failures.LidLeftOff(chance),
        NightKind.TopUp => Failures.TopUp(chance),
        NightKind.RedoxRises => BathScenes.RedoxRises(chance),
        NightKind.DipDay => BathScenes.DipDay(chance),
        NightKind.Depletion => BathScenes.Depletion(chance),
        NightKind.ElectrodeDrift => BathScenes.ElectrodeDrift(chance),
        _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, "is no kind of night"),
    };

    /// <summary>Looks up in the log what the truth needs; null when the limit was reached in a night in which it should not have been, or the other way round.</summary>
    private static MadeNight? Finish(int seed, NightKind kind, Scene scene)
    {
        var studio = scene.Studio;
        var plan = studio.Plan;
        var liquor = studio.Rows.Where(row => row.Probe.Value == MadeNight.Liquor).ToList();
        if (liquor.Any(row => row.Value >= plan.Limit - 0.2 && !(scene.MustCross && row.Time >= scene.HeatingSince)))
            return null;

        var crosses = scene.HeatingSince is { } since ? Crossing(liquor.Where(row => row.Time >= since), plan.Limit) : null;
        if (scene.MustCross && crosses is null)
            return null;
        return new MadeNight
        {
            Seed = seed,
            Kind = kind,
            Configuration = plan.Configuration(studio),
            Rows = studio.Rows,
            Entries = studio.Entries,
            Story = studio.Story(),
            Truth = new NightTruth
            {
                Nights = scene.Nights,
                Points = studio.Points,
                Low = plan.Low,
                High = plan.High,
                Limit = plan.Limit,
                Coarse = plan.Coarse,
                Fault = scene.Fault,
                Untellable = Tellable.WhyNot(kind, scene, crosses),
                Begun = plan.Enters || plan.HeaterProbe == StudioPlan.Power,
                HeatingSince = scene.HeatingSince,
                Knowable = scene.Knowable ?? scene.HeatingSince,
                ReadingCrosses = crosses,
                LiquorCrosses = scene.HeatingSince is { } start ? FirstAt(studio.Points, point => point.Time >= start && point.AtProbe >= plan.Limit) : null,
                LeavesBand = scene.Fault is { } fault ? LeavesBand(liquor, fault, plan.Low) : null,
                RiseBegins = scene.Fault is { } leak && kind == NightKind.RedoxRises ? RiseBegins(studio.Points, leak) : null,
            },
        };
    }

    private static DateTimeOffset? Crossing(IEnumerable<RecordedRow> rows, double limit)
    {
        DateTimeOffset? since = null;
        foreach (var row in rows)
        {
            since = row.Value >= limit ? since ?? row.Time : null;
            if (row.Time - since >= Staying)
                return since;
        }

        return null;
    }

    /// <summary>Three readings in a row below the band, after one in it.</summary>
    private static DateTimeOffset? LeavesBand(IEnumerable<RecordedRow> rows, DateTimeOffset after, double low)
    {
        var (wasIn, below) = (false, 0);
        foreach (var row in rows.Where(row => row.Time >= after))
        {
            wasIn |= row.Value >= low;
            below = row.Value < low ? below + 1 : 0;
            if (wasIn && below == 3)
                return row.Time;
        }

        return null;
    }

    /// <summary>The first of ten minutes in which the potential rose at 20 mV/h.</summary>
    private static DateTimeOffset? RiseBegins(IReadOnlyList<TruePoint> points, DateTimeOffset after)
    {
        for (var i = 10; i < points.Count; i++)
        {
            if (points[i - 10].Time >= after && points[i].Orp - points[i - 10].Orp >= 20 * (points[i].Time - points[i - 10].Time).TotalHours)
                return points[i - 10].Time;
        }

        return null;
    }

    private static DateTimeOffset? FirstAt(IReadOnlyList<TruePoint> points, Func<TruePoint, bool> isSo)
    {
        foreach (var point in points)
        {
            if (isSo(point))
                return point.Time;
        }

        return null;
    }
}

/// <summary>What a scene leaves behind.</summary>
internal sealed record Scene(Studio Studio, IReadOnlyList<NightSpan> Nights)
{
    public DateTimeOffset? Fault { get; init; }

    public DateTimeOffset? HeatingSince { get; init; }

    public DateTimeOffset? Knowable { get; init; }

    /// <summary>The readings have to reach the limit.</summary>
    public bool MustCross { get; init; }
}
