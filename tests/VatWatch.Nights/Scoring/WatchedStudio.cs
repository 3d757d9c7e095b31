using System.Text;
using VatWatch.Alarms;
using VatWatch.Calibration;
using VatWatch.Conditions;
using VatWatch.Measurements;
using VatWatch.Nights.Scenes;
using VatWatch.Pipeline.Configuration;
using VatWatch.Pipeline.Replay;
using VatWatch.Plans.Warm;
using VatWatch.Probes.Serial;
using VatWatch.Probes.Serial.Lines;
using VatWatch.Vats;
using VatWatch.Vats.Configuration;

namespace VatWatch.Nights.Scoring;

/// <summary>The watch on a studio, taken along as its time passes. Not thread safe.</summary>
internal sealed class WatchedStudio : IReplayListener
{
    private static readonly ProbeCatalog Drivers = ProbeCatalog.Of([new SerialBusKind()], [new TextLineDriver()]);
    private readonly Studio _studio;
    private readonly VatPlan _vat;
    private readonly ReplayWatch _watch;
    private VatCondition? _last;
    private readonly List<(DateTimeOffset At, double Sum, int Count)> _liquor = [];
    private readonly List<(DateTimeOffset At, double Sum, int Count)> _room = [];
    private int _rows;
    private int _summed;

    public WatchedStudio(Studio studio)
    {
        _studio = studio;
        var faults = new ConfigFaults();
        _vat = new WatchConfigurationReader(Drivers).Read(ConfigFile.Parse(Encoding.UTF8.GetBytes(studio.Plan.Configuration(studio)), faults)!).Vats[0];
        _watch = new ReplayWatch(_vat, DisplayUnits.Si, new CalibrationCache(), this);
        _watch.Take(new RecordedEntries(TimeZoneInfo.Utc).Read(
            new StringReader("time,entry,value\n" + string.Join('\n', studio.Entries.Select(entry => $"{entry.Time:O},{entry.Entry},{entry.Value}"))), _ => { }));
        Ready = studio.Now.AddMinutes(studio.MinutesTo(studio.Plan.ReadyHour));
    }

    public VatDefinition Vat => _vat.Definition;

    /// <summary>The next time that the studio's clock shows its hour.</summary>
    public DateTimeOffset Ready { get; }

    public SeenHeat Seen { get; private set; } = SeenHeat.Nothing;

    public VatHeat? Heat { get; private set; }

    /// <summary>The plan for <see cref="Ready"/> by what is known now; null when it is refused.</summary>
    public WarmPlan? Plan(double targetC)
    {
        Heat = Look();
        Seen = LookBack();
        return new WarmPlanner(_vat.Definition, Heat, DisplayUnits.Si, TimeZoneInfo.Utc, Seen).Plan(new(Ready, targetC, _studio.Now, _last!.TemperatureC!.Value)).Plan;
    }

    /// <summary>What its thermometer showed so far.</summary>
    public SeenHeat LookBack()
    {
        Sum();
        var minutes = Means(_liquor, 1);
        var quarters = Means(_liquor, 15);
        return new(
            SeenWarmUp.In(quarters, (from, to) => minutes.Where(mean => mean.At >= from && mean.At < to)), SeenCooling.In(minutes.Where(mean => mean.At > _studio.Now - SeenCooling.Longest)))
        {
            Fall = SeenFall.In(quarters),
            Room = RoomByHour.In([.. Means(_room, 15).Where(mean => mean.At > _studio.Now.AddHours(-30))]),
        };
    }

    /// <summary>Takes the rows of each minute together.</summary>
    private void Sum()
    {
        for (; _summed < _studio.Rows.Count; _summed++)
        {
            var row = _studio.Rows[_summed];
            if ((row.Probe.Value == MadeNight.Liquor ? _liquor : row.Probe.Value == "room" ? _room : null) is not { } sums || row.Value is not { } value)
                continue;
            var at = Floor(row.Time, 1);
            if (sums.Count > 0 && sums[^1].At == at)
                sums[^1] = (at, sums[^1].Sum + value, sums[^1].Count + 1);
            else
                sums.Add((at, value, 1));
        }
    }

    private static List<(DateTimeOffset At, double C)> Means(List<(DateTimeOffset At, double Sum, int Count)> sums, int minutes) =>
        [.. sums.GroupBy(one => Floor(one.At, minutes), (at, of) => (at, of.Sum(one => one.Sum) / of.Sum(one => one.Count)))];

    private static DateTimeOffset Floor(DateTimeOffset at, int minutes) => new(at.Ticks / (minutes * TimeSpan.TicksPerMinute) * minutes * TimeSpan.TicksPerMinute, TimeSpan.Zero);

    /// <summary>What is known of the vat's heat now.</summary>
    public VatHeat Look()
    {
        for (; _rows < _studio.Rows.Count; _rows++)
            _watch.Take(_studio.Rows[_rows]);
        _watch.End();
        return VatHeat.Of(_vat.Definition, _last!.Heat!);
    }

    public void Observe(Measurement measurement)
    {
    }

    public void Observe(VatCondition condition) => _last = condition;

    public void Observe(AlarmChange change)
    {
    }
}
