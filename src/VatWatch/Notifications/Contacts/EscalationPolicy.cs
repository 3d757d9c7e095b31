using System.Text.Json;
using VatWatch.Alarms;
using VatWatch.Alarms.Journal;
using VatWatch.Notifications.Mqtt;

namespace VatWatch.Notifications.Contacts;

/// <summary>
/// Decides of what one contact is notified and when: priority, hours, escalation, repeats, flood limit. Pure: alarm changes and time go in, sentences
/// come out; who keeps them on disk and sends them is somebody else. Not thread safe.
/// </summary>
/// <remarks>
/// An alarm that becomes unacknowledged begins an escalation. It is due at once, or after the contact's delay, or when the contact's hours begin; it is
/// gone when the alarm is acknowledged or returns before that. A contact who was notified hears of the return too, within the hours.
/// </remarks>
internal sealed class EscalationPolicy(Contact contact, FloodGate gate)
{
    private static readonly AlarmName Flood = new("flood");
    private readonly Dictionary<(VatId, AlarmName), Escalation> _escalations = [];

    /// <summary>Those whose notification the flood limit holds back and no summary has spoken of yet.</summary>
    private readonly HashSet<Escalation> _held = [];

    public Contact Contact => contact;

    /// <summary>Sentences held back by the flood limit since the start.</summary>
    public long HeldBack => gate.HeldBack;

    /// <summary>Whether <see cref="Stored"/> has changed since <see cref="MarkStored"/>.</summary>
    public bool IsChanged { get; private set; }

    /// <summary>Every escalation as it is kept on disk.</summary>
    public IReadOnlyList<StoredEscalation> Stored => [.. _escalations.Values.Select(escalation => escalation.Stored)];

    /// <summary><see cref="Stored"/> is on disk.</summary>
    public void MarkStored() => IsChanged = false;

    /// <summary>
    /// Takes up what an earlier run kept. An alarm without a row counts as notified when the contact is notified at once, since the row and the
    /// sentence go to disk together; otherwise it is due after the contact's delay, counted from its beginning. What a flood held back is due at once: the gate that held it is gone,
    /// and with it the summary that would have spoken of it.
    /// </summary>
    public void Restore(IEnumerable<StoredEscalation> kept, IEnumerable<AlarmStatus> statuses, Stamp now)
    {
        var rows = kept.ToDictionary(row => (row.Vat, row.Alarm));
        foreach (var status in statuses.Where(status => IsFollowed(status.State) && status.Priority >= contact.MinimumPriority))
        {
            var row = rows.GetValueOrDefault((status.Vat, status.Alarm));
            var escalation = new Escalation(status, Place(row?.Opened ?? status.Since.Utc, now))
            {
                Notified = row?.Notified ?? contact.After == TimeSpan.Zero,
                Repeats = row?.Repeats ?? 0,
            };
            if (status.State == AlarmState.Unacknowledged)
            {
                escalation.Due = row is not { Notified: true } ? NextDue(escalation, now) : row.Due is { } due ? now.Monotonic + Positive(due - now.Utc) : null;
            }

            _escalations[(status.Vat, status.Alarm)] = escalation;
        }
    }

    /// <summary>Takes a change in; what is to be sent at once. A note changes nothing, whatever its status says.</summary>
    public IReadOnlyList<Notification> Take(AlarmChange change, Stamp now)
    {
        var status = change.Status;
        var escalation = _escalations.GetValueOrDefault((status.Vat, status.Alarm));
        if (change.Note is not null || (escalation is null && status.Priority < contact.MinimumPriority))
        {
            return [];
        }

        if (status.State != AlarmState.Unacknowledged)
        {
            return Close(change, escalation, now);
        }

        IsChanged = true;
        if (escalation is not null && (change.Before == AlarmState.Unacknowledged || !change.Announce))
        {
            return GoOn(change, escalation, now);
        }

        escalation = _escalations[(status.Vat, status.Alarm)] = new Escalation(status, now) { Notified = !change.Announce };
        escalation.Due = change.Announce ? Open(status, now.Monotonic + contact.After, now) : NextDue(escalation, now);
        return Due(escalation, now);
    }

    /// <summary>What has become due by now: escalation, repeats, what waited for the hours, the summary of a flood.</summary>
    /// <param name="standsIn">Whether those who are notified before cannot be reached, so that the contact's delay is not waited for.</param>
    public IReadOnlyList<Notification> Due(Stamp now, bool standsIn = false)
    {
        foreach (var escalation in _escalations.Values.Where(escalation => standsIn && escalation is { Notified: false, Due: not null }))
        {
            escalation.Due = Open(escalation.Status, now.Monotonic, now);
        }

        List<Notification> due = [.. _escalations.Values.OrderBy(escalation => escalation.Due).SelectMany(escalation => Due(escalation, now))];
        due.AddRange(gate.Due(now.Monotonic).Select(sentence => OfTheDaemon(sentence, now)));
        ForgetHeld(now);
        return due;
    }

    /// <summary>An alarm that nobody needs to be woken for any more, for whatever reason.</summary>
    private IReadOnlyList<Notification> Close(AlarmChange change, Escalation? escalation, Stamp now)
    {
        var status = change.Status;
        var wasNotified = escalation?.Notified ?? contact.After == TimeSpan.Zero;
        if (escalation is not null)
        {
            IsChanged = true;
            (escalation.Status, escalation.Due) = (status, null);
        }

        if (!IsFollowed(status.State))
        {
            _escalations.Remove((status.Vat, status.Alarm));
        }

        return change.Announce && wasNotified && IsOpen(status, now) ? Pass(status, Words(status), now, held: null) : [];
    }

    /// <summary>An alarm that was unacknowledged before and still is: worse, another priority, a reminder, or back in view.</summary>
    private IReadOnlyList<Notification> GoOn(AlarmChange change, Escalation escalation, Stamp now)
    {
        var (before, status) = (escalation.Status.Priority, change.Status);
        escalation.Status = status;
        if (!escalation.Notified)
        {
            // What has become critical may not need to wait for the hours any more.
            escalation.Due = status.Priority > before || escalation.Due is null ? Open(status, escalation.Opened.Monotonic + contact.After, now) : escalation.Due;
            return Due(escalation, now);
        }

        if (!change.Announce || (change.IsReminder && contact.Repeat is not null) || !IsOpen(status, now))
        {
            escalation.Due ??= NextDue(escalation, now);
            return [];
        }

        escalation.Due = NextDue(escalation, now);
        return Pass(status, Words(status), now, escalation);
    }

    private IReadOnlyList<Notification> Due(Escalation escalation, Stamp now)
    {
        if (!(escalation.Due <= now.Monotonic))
        {
            return [];
        }

        IsChanged = true;
        if (!IsOpen(escalation.Status, now))
        {
            escalation.Due = Open(escalation.Status, now.Monotonic, now);
            return [];
        }

        var isRepeat = escalation.Notified;
        escalation.Repeats += isRepeat ? 1 : 0;
        escalation.Notified = true;
        escalation.Due = NextDue(escalation, now);
        return [.. Pass(escalation.Status, Sentence(escalation, isRepeat, now), now, escalation).Select(note => note with { IsRepeat = isRepeat })];
    }

    private string Sentence(Escalation escalation, bool isRepeat, Stamp now)
    {
        var since = now.Monotonic - escalation.Opened.Monotonic;
        var waited = DisplayUnits.Duration(Positive(since));

        // What is wrong comes first: a lock screen shows the beginning.
        return isRepeat ? $"{Words(escalation.Status)} Still not acknowledged after {waited}."
            : since >= Soon ? $"{Words(escalation.Status)} Not acknowledged for {waited}."
            : Words(escalation.Status);
    }

    /// <summary>When a contact who was notified is notified again; null for not by us.</summary>
    private TimeSpan? NextDue(Escalation escalation, Stamp now) => escalation.Notified
        ? contact.Repeat is { } repeat && escalation.Repeats < repeat.Most ? Open(escalation.Status, now.Monotonic + repeat.Every, now) : null
        : Open(escalation.Status, escalation.Opened.Monotonic + contact.After, now);

    /// <summary>The first moment from <paramref name="at"/> on at which the contact may be disturbed by this alarm.</summary>
    private TimeSpan Open(AlarmStatus status, TimeSpan at, Stamp now)
    {
        if (MayDisturb(status, now))
        {
            return at;
        }

        var utc = now.Utc + (at - now.Monotonic);
        return at + (contact.Hours!.NextOpen(utc) - utc);
    }

    private bool IsOpen(AlarmStatus status, Stamp now) => MayDisturb(status, now) || contact.Hours!.NextOpen(now.Utc) == now.Utc;

    /// <summary>Whatever the hour: none are set, it is critical, or the hour is not known.</summary>
    private bool MayDisturb(AlarmStatus status, Stamp now) =>
        contact.Hours is null || !now.UtcTrusted || (contact.CriticalAlways && status.Priority == AlarmPriority.Critical);

    private string Words(AlarmStatus status) => status.Text.In(contact.Units);

    /// <summary>
    /// What the flood limit lets through: the sentence, under its own vat, and what the gate itself has to say. An escalation that is held back stays
    /// due, on disk too, until a summary has spoken of it: a kill in a flood loses none.
    /// </summary>
    private IReadOnlyList<Notification> Pass(AlarmStatus status, string sentence, Stamp now, Escalation? held)
    {
        var heldBefore = gate.HeldBack;
        var passed = gate.Pass(status, sentence, now.Monotonic);
        if (gate.HeldBack > heldBefore && held is not null)
        {
            (held.Notified, held.Due) = (false, now.Monotonic + (status.Priority == AlarmPriority.Critical ? Limits.SameAlarmEvery : Limits.Window + OneMinute));
            _held.Add(held);
        }

        ForgetHeld(now);
        return [.. passed.Select(one => one == sentence ? Of(status, sentence, now) : OfTheDaemon(one, now))];
    }

    private Notification Of(AlarmStatus status, string sentence, Stamp now) => new(0, status.Vat, status.Alarm, status.Priority, now.Utc, sentence)
    {
        Document = JsonSerializer.Serialize(AlarmDocument.Of(status, contact.Units), MqttJson.Readable.AlarmDocument),
    };

    private static Notification OfTheDaemon(string sentence, Stamp now) => new(0, VatId.Daemon, Flood, AlarmPriority.High, now.Utc, sentence);

    /// <summary>Once a summary has gone out, what it was about counts as notified.</summary>
    private void ForgetHeld(Stamp now)
    {
        if (gate.Held > 0 || _held.Count == 0)
        {
            return;
        }

        IsChanged = true;
        foreach (var escalation in _held.Where(escalation => escalation.Status.State == AlarmState.Unacknowledged))
        {
            escalation.Notified = true;
            escalation.Due = NextDue(escalation, now);
        }

        _held.Clear();
    }

    /// <summary>A state from which an alarm may come back without a new notification.</summary>
    private static bool IsFollowed(AlarmState state) => state is not (AlarmState.Normal or AlarmState.Shelved or AlarmState.OutOfService);

    private static Stamp Place(DateTimeOffset utc, Stamp now) => new(utc, now.Monotonic - Positive(now.Utc - utc), now.UtcTrusted);

    private static TimeSpan Positive(TimeSpan time) => time > TimeSpan.Zero ? time : TimeSpan.Zero;

    private static readonly FloodLimits Limits = new();

    /// <summary>Within the window of the flood limit a summary speaks of what was held; what is still held after a minute more has none.</summary>
    private static readonly TimeSpan OneMinute = TimeSpan.FromMinutes(1);

    /// <summary>A sentence told within this of the alarm's beginning needs no word about the wait.</summary>
    private static readonly TimeSpan Soon = TimeSpan.FromMinutes(1);
}
