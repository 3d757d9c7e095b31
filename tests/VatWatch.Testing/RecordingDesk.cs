using System.Collections.Concurrent;
using VatWatch.Alarms;
using VatWatch.Alarms.Acts;

namespace VatWatch.Testing;

/// <summary>An alarm desk that notes what it was handed and answers as the test says. Thread safe.</summary>
public sealed class RecordingDesk : IAlarmActions
{
    private readonly ConcurrentQueue<AlarmAct> _taken = new();

    /// <summary>What was handed in, in order.</summary>
    public IReadOnlyList<AlarmAct> Taken => [.. _taken];

    /// <summary>The answer to the next ones; false is "nothing to do".</summary>
    public Func<AlarmAct, Task<bool>> Answer { get; set; } = _ => Task.FromResult(true);

    /// <summary>Whether what is done is held in memory, as while the disk takes nothing.</summary>
    public bool HoldsInMemory { get; set; }

    public async Task<AlarmChange?> CarryOutAsync(AlarmAct act, CancellationToken cancel)
    {
        _taken.Enqueue(act);
        return await Answer(act) && Done(act) is var done ? done with { Status = done.Status with { IsInMemory = HoldsInMemory } } : null;
    }

    /// <summary>A change such as <paramref name="act"/> makes of an alarm that stands.</summary>
    public static AlarmChange Done(AlarmAct act)
    {
        var now = new Stamp(new(2026, 3, 2, 3, 0, 0, TimeSpan.Zero), TimeSpan.FromHours(3), true);
        var status = new AlarmStatus
        {
            Vat = act.Vat,
            Alarm = act.Alarm,
            State = act.Kind switch
            {
                AlarmActKind.Acknowledge => AlarmState.Acknowledged,
                AlarmActKind.Shelve => AlarmState.Shelved,
                AlarmActKind.TakeOutOfService => AlarmState.OutOfService,
                _ => AlarmState.Unacknowledged,
            },
            Priority = AlarmPriority.High,
            Since = now,
            Text = "Madder Lane vat is too hot.",
            Action = "Unplug the heater.",
            SetAside = act.Kind is AlarmActKind.Shelve ? new(act.By, now.Utc, true, act.Text ?? "", now.Utc + act.For) : null,
        };
        return new(AlarmState.Unacknowledged, status, now, act.By, Announce: false) { Via = act.Via, Note = act.Kind == AlarmActKind.Note ? act.Text : null };
    }
}
