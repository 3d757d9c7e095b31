namespace VatWatch.Alarms;

/// <summary>How much an alarm matters, from the severity of what follows and the time left to respond.</summary>
public enum AlarmPriority
{
    /// <summary>Some time this week.</summary>
    Low,

    /// <summary>Before the next session.</summary>
    Medium,

    /// <summary>Within the hour: the vat or the yarn is at stake.</summary>
    High,

    /// <summary>Now: people, fire or the whole vat.</summary>
    Critical,
}
