using VatWatch.Alarms;
using VatWatch.Alarms.Acts;
using VatWatch.Alarms.Rules;
using VatWatch.Conditions;
using VatWatch.Vats.Configuration;

namespace VatWatch.Tests.Alarms;

/// <summary>A vat with its alarm board, driven second by second: measurements, conditions and ticks in, alarm changes out.</summary>
internal sealed class WatchedVat
{
    public static readonly DateTimeOffset Midnight = new(2026, 3, 2, 0, 0, 0, TimeSpan.Zero);

    private readonly List<AlarmChange> _changes = [];

    public WatchedVat(AlarmSettings? settings = null, VatDefinition? vat = null)
    {
        Vat = vat ?? MadderLane(Probe("liquor", Quantity.Temperature), Probe("redox", Quantity.Orp), Probe("alkali", Quantity.Ph));
        Settings = settings ?? AlarmSettings.Default;
        Board = new(Vat, Settings, LostBuses.Contains);
        Condition = Ready();
    }

    public AlarmSettings Settings { get; }

    public VatDefinition Vat { get; }

    public AlarmBoard Board { get; private set; }

    public HashSet<BusId> LostBuses { get; } = [];

    public TimeSpan Now { get; private set; }

    public VatCondition Condition { get; set; }

    public IReadOnlyList<AlarmChange> Changes => _changes;

    public static VatDefinition MadderLane(params ProbeDefinition[] probes) => new()
    {
        Id = new("madder-lane"),
        Name = "Madder Lane vat",
        VolumeLitres = 150,
        Fibre = Fibre.Protein,
        Reducer = ReducingAgent.Dithionite,
        Temperature = new(37.8, 47.8, F(120)),
        Ph = new(9.5, 10.5),
        Orp = new(-660, -580, "Ag/AgCl 3 M KCl", 20),
        Probes = probes,
    };

    public static ProbeDefinition Probe(string id, Quantity measures, double everySeconds = 5) =>
        new(new(id), new("madder-lane"), measures, new("bench"), "text-line", TimeSpan.FromSeconds(everySeconds), SampleUnit.Canonical(measures));

    public static double F(double fahrenheit) => (fahrenheit - 32) / 1.8;

    public static Stamp At(TimeSpan time) => new(Midnight + time, time, true);

    public VatCondition Ready() => new()
    {
        Vat = Vat.Id,
        Stamp = At(Now),
        State = VatState.Ready,
        Reasons = ["All is in its band."],
        TemperatureC = 45,
        TemperatureRateKPerHour = 0,
        Ph = 10,
        OrpMillivolts = -720,
        OrpRateMillivoltsPerHour = 0,
    };

    public AlarmStatus Status(string alarm) => Board.All.Single(status => status.Alarm.Value == alarm);

    public AlarmState State(string alarm) => Status(alarm).State;

    public IEnumerable<AlarmChange> ChangesOf(string alarm) => _changes.Where(change => change.Status.Alarm.Value == alarm);

    public int Announced(string alarm) => ChangesOf(alarm).Count(change => change.Announce);

    public IReadOnlyList<AlarmChange> Measure(string probe, double? value, Quality quality = Quality.Good, string? reason = null)
    {
        var definition = Vat.Probes.Single(it => it.Id.Value == probe);
        return Keep(Board.Accept(new(Vat.Id, definition.Id, definition.Quantity, At(Now), value, value, quality, reason, null)));
    }

    /// <summary>Lets whole seconds pass, each ending in a tick; <paramref name="each"/> runs before each tick.</summary>
    public WatchedVat Pass(double seconds, Action<WatchedVat>? each = null)
    {
        for (var i = 0; i < seconds; i++)
        {
            Now += TimeSpan.FromSeconds(1);
            each?.Invoke(this);
            Tick();
        }

        return this;
    }

    /// <summary>Lets time pass in which nobody watches.</summary>
    public void StandStill(double seconds)
    {
        Now += TimeSpan.FromSeconds(seconds);
        Board.Resume(At(Now));
    }

    public IReadOnlyList<AlarmChange> Tick() => Keep(Board.Assess(Condition with { Stamp = At(Now) }, At(Now)));

    public IReadOnlyList<AlarmChange> Acknowledge(string alarm, string by = "Ada") => Do(AlarmActKind.Acknowledge, alarm, by: by);

    public IReadOnlyList<AlarmChange> Shelve(string alarm, double minutes, string reason = "probe out for cleaning") =>
        Do(AlarmActKind.Shelve, alarm, reason, TimeSpan.FromMinutes(minutes));

    public IReadOnlyList<AlarmChange> Do(AlarmActKind kind, string alarm, string? text = null, TimeSpan time = default, string by = "Ada") =>
        Keep(Board.Carry(new(kind, Vat.Id, new(alarm), by, "page") { Text = text, For = time }, At(Now)));

    /// <summary>The daemon stops and starts again: a new board and a monotonic clock that begins anew.</summary>
    public WatchedVat Restart(TimeSpan? away = null, bool trusted = true)
    {
        var (statuses, label) = (Board.All, Midnight + Now + (away ?? TimeSpan.Zero));
        Board = new(Vat, Settings);
        Now = TimeSpan.Zero;
        Board.Restore(statuses, new(label, Now, trusted));
        return this;
    }

    private IReadOnlyList<AlarmChange> Keep(IReadOnlyList<AlarmChange> changes)
    {
        _changes.AddRange(changes);
        return changes;
    }
}
