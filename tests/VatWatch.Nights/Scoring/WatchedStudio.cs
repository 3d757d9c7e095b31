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
    private int _rows;

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

    private IEnumerable<(DateTimeOffset At, double C)> Means(int minutes, string probe = MadeNight.Liquor) => _studio.Rows
        .Where(row => row.Probe.Value == probe)
        .GroupBy(row => new DateTimeOffset(row.Time.Ticks / (minutes * TimeSpan.TicksPerMinute) * minutes * TimeSpan.TicksPerMinute, TimeSpan.Zero), (at, rows) => (at, rows.Average(row => row.Value) ?? 0));

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
        var minutes = Means(1).ToList();
        var quarters = Means(15).ToList();
        return new(
            SeenWarmUp.In(quarters, (from, to) => minutes.Where(mean => mean.At >= from && mean.At < to)), SeenCooling.In(minutes.Where(mean => mean.At > _studio.Now - SeenCooling.Longest)))
        {
            Fall = SeenFall.In(quarters),
            Room = RoomByHour.In([.. Means(15, "room").Where(mean => mean.At > _studio.Now.AddHours(-30))]),
        };
    }

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
