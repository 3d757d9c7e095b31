using System.Collections.Concurrent;
using VatWatch.Alarms;
using VatWatch.Conditions;
using VatWatch.Measurements;

namespace VatWatch.Pipeline;

/// <summary>The newest of one vat, one cell per probe and alarm. One writer per cell, any number of readers.</summary>
internal sealed class LiveSlot
{
    private readonly Measurement?[] _latest;
    private readonly Dictionary<ProbeId, int> _cell;
    private readonly ConcurrentDictionary<AlarmName, AlarmStatus> _alarms = new();
    private VatCondition _condition;

    public LiveSlot(VatDefinition vat, Stamp start)
    {
        Vat = vat;
        _latest = new Measurement?[vat.Probes.Count];
        _cell = vat.Probes.Select((probe, index) => (probe.Id, index)).ToDictionary(pair => pair.Id, pair => pair.index);
        _condition = new VatCondition { Vat = vat.Id, Stamp = start, State = VatState.Unknown, Reasons = ["The watch has just begun."] };
    }

    public VatDefinition Vat { get; }

    public void Show(Measurement measurement) => Volatile.Write(ref _latest[_cell[measurement.Probe]], measurement);

    /// <summary>True when somebody looking at the vat would see a difference.</summary>
    public bool Show(VatCondition condition)
    {
        var before = Volatile.Read(ref _condition);
        Volatile.Write(ref _condition, condition);
        return !LooksAlike(before, condition);
    }

    public void Show(AlarmStatus status) => _alarms[status.Alarm] = status;

    public LiveVat Picture() => new(
        Vat,
        [.. Enumerable.Range(0, _latest.Length).Select(cell => Volatile.Read(ref _latest[cell])).OfType<Measurement>()],
        Volatile.Read(ref _condition),
        Standing(_alarms.Values));

    public static IReadOnlyList<AlarmStatus> Standing(IEnumerable<AlarmStatus> alarms) =>
    [
        .. alarms.Where(alarm => alarm.State != AlarmState.Normal)
            .OrderByDescending(alarm => alarm.IsActive)
            .ThenByDescending(alarm => alarm.Priority)
            .ThenByDescending(alarm => alarm.Since.Utc),
    ];

    private static bool LooksAlike(VatCondition a, VatCondition b) =>
        a.State == b.State
        && a.Reasons.SequenceEqual(b.Reasons)
        && Minutes(a.TimeToBand) == Minutes(b.TimeToBand)
        && Minutes(a.TimeToLimit) == Minutes(b.TimeToLimit)
        && Steps(a.Margin?.Millivolts) == Steps(b.Margin?.Millivolts)
        && a.Recoveries.Count == b.Recoveries.Count
        && a.Diagnoses.Select(one => one.Kind).SequenceEqual(b.Diagnoses.Select(one => one.Kind));

    /// <summary>A margin in steps of 5 mV: less is the probe's own unrest.</summary>
    private static int? Steps(double? millivolts) => millivolts is { } value ? (int)Math.Round(value / 5) : null;

    private static (int, int?)? Minutes(Forecast? forecast) =>
        forecast is null ? null : ((int)forecast.Early.TotalMinutes, (int?)forecast.Late?.TotalMinutes);
}
