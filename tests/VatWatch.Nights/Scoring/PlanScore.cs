using System.Text;
using VatWatch.Alarms;
using VatWatch.Calibration;
using VatWatch.Conditions;
using VatWatch.Measurements;
using VatWatch.Nights.Scenes;
using VatWatch.Pipeline.Configuration;
using VatWatch.Pipeline.Replay;
using VatWatch.Plans;
using VatWatch.Probes.Serial;
using VatWatch.Vats;
using VatWatch.Vats.Configuration;

namespace VatWatch.Nights.Scoring;

/// <summary>How well plans foretell the warm-up of the third night of a vat.</summary>
/// <param name="LateMinutes">How long after the wish the thermometer showed the target; negative for before it.</param>
internal sealed record PlanScore(int Seed, string Story, double PlannedMinutes, double LateMinutes, double HalfBandMinutes, double FromC, double WasC)
{
    /// <summary>The plan of the evening, kept to; null when it was refused.</summary>
    public static PlanScore? OfEvening(int seed)
    {
        var night = PlannedNight.Make(seed);
        var watched = new Watched(night.Studio);
        return watched.Plan(night) is { } plan ? Score(seed, night, watched, plan) : null;
    }

    /// <summary>The plan as the watch renews it until the heater is due; null when it was refused.</summary>
    public static PlanScore? OfReminder(int seed)
    {
        var night = PlannedNight.Make(seed);
        var watched = new Watched(night.Studio);
        WarmPlan? plan = null;
        while (watched.Plan(night) is { } renewed)
        {
            plan = renewed;
            var left = (plan.SwitchOn - night.Studio.Now).TotalMinutes;
            if (left < 1)
                break;
            night.Studio.Pass(Math.Clamp(left / 2, 1, 30));
        }

        return plan is null ? null : Score(seed, night, watched, plan);
    }

    private static PlanScore Score(int seed, PlannedNight night, Watched watched, WarmPlan plan)
    {
        var studio = night.Studio;
        studio.Pass(Math.Max(0, (plan.SwitchOn - studio.Now).TotalMinutes));
        var was = studio.Shown;
        var took = night.Warm() ?? 14 * 60;
        var late = (studio.Now - watched.Ready).TotalMinutes;
        var half = ((plan.ReadyLate ?? plan.SwitchOff) - plan.SwitchOff).TotalMinutes;
        var heat = watched.Heat!;
        return new PlanScore(
            seed,
            $"{studio.Story()}; {heat.PowerW:0} W {heat.PowerSigmaW:0}, {heat.LossWPerK:0.00} W/K {heat.LossSigmaWPerK:0.00}, seen {string.Join(", ", watched.Seen.Select(one => $"{one.Points[0].C:0.0}-{one.Points[^1].C:0.0} {60 * one.Points[^1].Hours:0} min"))}, room {heat.RoomC:0.0} was {studio.Room.Celsius:0.0}",
            (plan.SwitchOff - plan.SwitchOn).TotalMinutes,
            late,
            half,
            plan.SwitchOnC,
            was);
    }

    private sealed class Watched : IReplayListener
    {
        private static readonly ProbeCatalog Drivers = ProbeCatalog.Of([new SerialBusKind()], [new TextLineDriver()]);
        private readonly VatPlan _vat;
        private readonly ReplayWatch _watch;
        private VatCondition? _last;
        private int _rows;

        public Watched(Studio studio)
        {
            var faults = new ConfigFaults();
            _vat = new WatchConfigurationReader(Drivers).Read(ConfigFile.Parse(Encoding.UTF8.GetBytes(studio.Plan.Configuration(studio)), faults)!).Vats[0];
            _watch = new ReplayWatch(_vat, DisplayUnits.Si, new CalibrationCache(), this);
            _watch.Take(new RecordedEntries(TimeZoneInfo.Utc).Read(
                new StringReader("time,entry,value\n" + string.Join('\n', studio.Entries.Select(entry => $"{entry.Time:O},{entry.Entry},{entry.Value}"))), _ => { }));
            Ready = studio.Now.AddMinutes(studio.MinutesTo(studio.Plan.ReadyHour));
        }

        public DateTimeOffset Ready { get; }

        public IReadOnlyList<SeenWarmUp> Seen { get; private set; } = [];

        private static IEnumerable<(DateTimeOffset At, double C)> Quarters(Studio studio) => studio.Rows
            .Where(row => row.Probe.Value == MadeNight.Liquor)
            .GroupBy(row => new DateTimeOffset(row.Time.Ticks / Quarter * Quarter, TimeSpan.Zero), (at, rows) => (at, rows.Average(row => row.Value) ?? 0));

        private const long Quarter = 15 * TimeSpan.TicksPerMinute;

        public VatHeat? Heat { get; private set; }

        public WarmPlan? Plan(PlannedNight night)
        {
            for (; _rows < night.Studio.Rows.Count; _rows++)
                _watch.Take(night.Studio.Rows[_rows]);
            _watch.End();
            Heat = VatHeat.Of(_last!.Heat!);
            Seen = SeenWarmUp.In(Quarters(night.Studio));
            return new WarmPlanner(_vat.Definition, Heat, DisplayUnits.Si, TimeZoneInfo.Utc, Seen).Plan(new(Ready, night.Target, night.Studio.Now, _last.TemperatureC!.Value)).Plan;
        }

        public void Heard(Measurement measurement)
        {
        }

        public void Heard(VatCondition condition) => _last = condition;

        public void Heard(AlarmChange change)
        {
        }
    }
}
