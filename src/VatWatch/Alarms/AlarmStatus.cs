using VatWatch.Alarms.Rules;

namespace VatWatch.Alarms;

/// <summary>One alarm as it stands: what topics, pages and the journal show. Immutable.</summary>
public sealed record AlarmStatus
{
    /// <summary>Name within the vat.</summary>
    public required AlarmName Alarm { get; init; }

    /// <summary>The vat, or <see cref="VatId.Daemon"/>.</summary>
    public required VatId Vat { get; init; }

    /// <summary>State of the lifecycle.</summary>
    public required AlarmState State { get; init; }

    public required AlarmPriority Priority { get; init; }

    /// <summary>When the alarm entered from normal (or, in normal, when it last returned).</summary>
    public required Stamp Since { get; init; }

    /// <summary>The value that stands against <see cref="Limit"/>, in <see cref="Unit"/>; null for alarms without a number.</summary>
    public double? Value { get; init; }

    /// <summary>The limit, in <see cref="Unit"/>.</summary>
    public double? Limit { get; init; }

    /// <summary>Canonical unit of value and limit: °C, K, pH, mV, mV/h, min or s; empty when there is no number.</summary>
    public string Unit { get; init; } = "";

    /// <summary>One plain sentence, fit for a lock screen.</summary>
    public required Sentence Text { get; init; }

    /// <summary>What to do, in one or two plain sentences.</summary>
    public required string Action { get; init; }

    /// <summary>Who acknowledged it; null when nobody has.</summary>
    public string? AcknowledgedBy { get; init; }

    public DateTimeOffset? AcknowledgedAt { get; init; }

    /// <summary>How it was shelved or taken out of service; null when it is neither.</summary>
    public SettingAside? SetAside { get; init; }

    /// <summary>Whether its condition stands, delays included, whatever the state.</summary>
    public bool Stands { get; init; }

    /// <summary>Whether it is told from memory, because the disk does not take it: it is lost if VatWatch ends before the disk is back. Not kept in the journal.</summary>
    public bool IsInMemory { get; init; }

    /// <summary>Why the alarm exists; null for one that no rule of this run knows. Not kept in the journal.</summary>
    public AlarmRationale? Rationale { get; init; }

    /// <summary>Whether it stands in front of the dyer: anything that is neither normal nor set aside.</summary>
    public bool IsActive => State is AlarmState.Unacknowledged or AlarmState.Acknowledged or AlarmState.ReturnedUnacknowledged or AlarmState.Latched;

    /// <summary>Sentence and numbers as a reader of <paramref name="units"/> gets them; a number that is none is null.</summary>
    public (string Text, double? Value, double? Limit, string Unit) In(DisplayUnits units)
    {
        return (Text.In(units), Turned(Value), Turned(Limit), units.Turn(0, Unit).Unit);

        double? Turned(double? number) => number is { } value && double.IsFinite(value) ? Math.Round(units.Turn(value, Unit).Value, 4) : null;
    }
}

/// <summary>How an alarm came to be shelved or out of service.</summary>
/// <param name="By">Who; null for the daemon itself.</param>
/// <param name="At">When, UTC.</param>
/// <param name="Trusted">Whether UTC was to be believed then.</param>
/// <param name="Because">Why, in words.</param>
/// <param name="Until">When it comes back by itself, UTC; null for one that is out of service.</param>
public sealed record SettingAside(string? By, DateTimeOffset At, bool Trusted, string Because, DateTimeOffset? Until);
