namespace VatWatch.Daemon.Web;

/// <summary>How an act on an alarm ended.</summary>
internal enum AlarmOutcomeKind
{
    /// <summary>It is on disk.</summary>
    OnDisk,

    /// <summary>What was asked is not whole: a name, a time or a reason is missing or cannot be one.</summary>
    Refused,

    /// <summary>There is no such alarm, or nothing of it is left to do.</summary>
    NothingToDo,

    /// <summary>The store did not confirm it in time; it may or may not become true.</summary>
    TooSlow,
}
