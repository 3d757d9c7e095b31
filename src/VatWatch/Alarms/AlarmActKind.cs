namespace VatWatch.Alarms;

/// <summary>What a person may do with an alarm.</summary>
public enum AlarmActKind
{
    /// <summary>Says that somebody has seen it.</summary>
    Acknowledge,

    /// <summary>Sets it aside for a limited time.</summary>
    Shelve,

    /// <summary>Takes it off the shelf before its time.</summary>
    Unshelve,

    /// <summary>Takes it out of service until somebody returns it.</summary>
    TakeOutOfService,

    /// <summary>Puts it back into service.</summary>
    ReturnToService,

    /// <summary>Ends a latched alarm that was acknowledged.</summary>
    Reset,

    /// <summary>Writes a line beside it into the journal; changes nothing.</summary>
    Note,
}
