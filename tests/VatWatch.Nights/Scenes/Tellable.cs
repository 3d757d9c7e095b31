using VatWatch.Probes.Recorded;

namespace VatWatch.Nights.Scenes;

/// <summary>Which troubles the readings of a night cannot show in the time wanted, whoever looks at them, by the night's own numbers and not by what the watch made of it.</summary>
internal static class Tellable
{
    /// <summary>Five minutes of lead, and one in which a reading may be a stray.</summary>
    private const double LeastMinutes = 6;

    /// <summary>What lies no higher above the highest reading of earlier nights is no sign of a thermostat that fails, K.</summary>
    private const double AbovePeakK = 0.1;

    /// <summary>Without a word that the heater is on, a rise in the first 45 min below this is that of a heater that is off or a vat that stands, K.</summary>
    private const double LeastRiseK = 1;

    /// <summary>The weakest heater that warms such a vat in a night, K/h; and the share of its plate that a heater gives on weak mains.</summary>
    private const double WeakestKPerHour = 2.5;
    private const double WeakMainsShare = 0.75;

    /// <summary>Mains differ from night to night by so much of the power; a difference must be this many times as large.</summary>
    private const double MainsShare = 0.025;
    private const double SureMains = 3;

    /// <summary>Cooling for so long shows its rate.</summary>
    private const int CoolingMinutes = 20;

    /// <summary>Why this night's trouble cannot be told; null when it can.</summary>
    public static string? WhyNot(NightKind kind, Scene scene, DateTimeOffset? crosses)
    {
        var studio = scene.Studio;
        var liquor = studio.Rows.Where(row => row.Probe.Value == MadeNight.Liquor).ToList();
        return kind switch
        {
            NightKind.StuckAfterNights => NearLimit(scene, liquor, crosses!.Value),
            NightKind.HalfPower when !studio.Plan.Enters && studio.Plan.HeaterProbe != StudioPlan.Power && Rise(liquor, scene.Fault!.Value, 0, 45) is var rise && rise < LeastRiseK =>
                $"nothing says that the heater is on, and the reading changes by {rise:+0.0;-0.0} K in 45 min",
            NightKind.ProbeInAir when Rise(liquor, scene.Fault!.Value, 5, 40) is var rise && rise > 0.5 * LeastRise(studio.Plan, 35) =>
                $"the reading in the air rises by {rise:0.0} K in 35 min, the weakest heater that this may be brings {LeastRise(studio.Plan, 35):0.0} K",
            NightKind.LidLeftOff => LittleLost(studio, scene.Fault!.Value),
            _ => null,
        };
    }

    private static string? NearLimit(Scene scene, List<RecordedRow> liquor, DateTimeOffset crosses)
    {
        var since = scene.HeatingSince!.Value;
        var peak = liquor.Where(row => row.Time < since).Max(row => row.Value!.Value);
        var passes = liquor.First(row => row.Time >= since && row.Value > peak + AbovePeakK).Time;
        var minutes = (crosses - passes).TotalMinutes;
        return minutes < LeastMinutes ? $"the reading passes {peak:0.0} °C, the highest of earlier nights, {minutes:0.0} min before the limit" : null;
    }

    /// <summary>Neither while it is heated nor while it cools does the open surface make a difference that mains do not.</summary>
    private static string? LittleLost(Studio studio, DateTimeOffset fault)
    {
        var body = studio.Plan.Body;
        var hours = studio.Points.Where(point => point.Time >= fault && point.Time <= fault.AddHours(3)).ToList();
        double Extra(TruePoint point) => body.Loss(point.Mean, Studio.UsualRoom, lidOn: false) - body.Loss(point.Mean, Studio.UsualRoom, lidOn: true);
        var heated = hours.Where(point => point.Watts > 0).Max(Extra) / studio.Plan.Watts;
        var (cools, longest) = (0, 0);
        foreach (var point in hours)
        {
            cools = point.Watts < 0.05 * studio.Plan.Watts ? cools + 1 : 0;
            longest = Math.Max(longest, cools);
        }

        return heated < SureMains * MainsShare && longest < CoolingMinutes ? $"the lid costs {100 * heated:0} % of the power, mains change it by {100 * MainsShare:0.#} %, and it cools for {longest} min at most" : null;
    }

    /// <summary>What the heater of this plan brings at least in some minutes, by its plate where that is told, K.</summary>
    private static double LeastRise(StudioPlan plan, double minutes) =>
        (plan.SaysWatts || plan.HeaterProbe == StudioPlan.Power ? WeakMainsShare * plan.Watts / (1.163 * plan.Body.Litres) : WeakestKPerHour) * minutes / 60;

    private static double Rise(List<RecordedRow> liquor, DateTimeOffset since, double from, double to)
    {
        double Mean(double minute) => liquor.Where(row => Math.Abs((row.Time - since).TotalMinutes - minute) <= 2).Select(row => row.Value!.Value).DefaultIfEmpty(double.NaN).Average();
        return Mean(to) - Mean(from);
    }
}
