namespace VatWatch.Daemon.Web.Health;

/// <summary>Says how the stages of the daemon are doing. Reads never wait. Thread safe.</summary>
internal interface IReadiness
{
    /// <summary>Every stage; the daemon is ready when all are.</summary>
    IReadOnlyList<StageReadiness> Stages { get; }
}
