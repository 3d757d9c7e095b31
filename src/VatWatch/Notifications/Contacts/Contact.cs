using VatWatch.Alarms;

namespace VatWatch.Notifications.Contacts;

/// <summary>Somebody who is notified of alarms: how, of which, when, and how insistently. Immutable.</summary>
public sealed record Contact
{
    /// <summary>Name in files, topics and counters; also the channel of the outbox.</summary>
    public required string Id { get; init; }

    /// <summary>Name for people.</summary>
    public required string Name { get; init; }

    /// <summary>How the contact is reached.</summary>
    public required ContactWay Way { get; init; }

    /// <summary>Alarms below this are not told. Default low: all are.</summary>
    public AlarmPriority MinimumPriority { get; init; } = AlarmPriority.Low;

    /// <summary>When the contact may be disturbed; null for always.</summary>
    public ContactHours? Hours { get; init; }

    /// <summary>Whether the contact is notified of critical alarms outside <see cref="Hours"/> too. Default true.</summary>
    public bool CriticalAlways { get; init; } = true;

    /// <summary>Units of the sentences.</summary>
    public required DisplayUnits Units { get; init; }

    /// <summary>How long an alarm must be unacknowledged before this contact is notified; 0 for at once, at most 24 h.</summary>
    public TimeSpan After { get; init; }

    /// <summary>How the contact is notified again; null to follow the reminders of each alarm.</summary>
    public ContactRepeat? Repeat { get; init; }

    /// <summary>The one contact of a configuration without a <c>contacts</c> section: every sentence on <c>{vat}/notification</c>.</summary>
    public static Contact Topic(DisplayUnits units) => new() { Id = "mqtt", Name = "MQTT", Way = new ContactWay.Topic(null), Units = units };
}

/// <summary>How a contact is notified again while nobody has acknowledged an alarm.</summary>
/// <param name="Every">Wait between two tellings; 1 min to 24 h.</param>
/// <param name="Most">Tellings after the first; 1 to 100.</param>
public sealed record ContactRepeat(TimeSpan Every, int Most);
