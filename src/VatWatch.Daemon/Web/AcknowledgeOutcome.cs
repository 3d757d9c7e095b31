namespace VatWatch.Daemon.Web;

/// <summary>What became of an acknowledgement.</summary>
internal enum AcknowledgeOutcome
{
    /// <summary>It is on disk.</summary>
    OnDisk,

    /// <summary>There is no such alarm, or nothing of it is left to acknowledge.</summary>
    NothingToAcknowledge,

    /// <summary>The store did not answer in time; it may or may not become true.</summary>
    TooSlow,
}
