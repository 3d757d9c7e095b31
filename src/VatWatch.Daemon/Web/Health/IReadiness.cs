namespace VatWatch.Daemon.Web.Health;

/// <summary>Says how the stages of the daemon are doing. Reads never wait. Thread safe.</summary>
internal interface IReadiness
{
    /// <summary>Every stage; the daemon is ready when all are.</summary>
    IReadOnlyList<StageReadiness> Stages { get; }
}

/// <summary>How one stage is doing.</summary>
/// <param name="Stage">Its name, for example "store".</param>
/// <param name="Ok">Whether it does its job.</param>
/// <param name="Sentence">In words.</param>
internal sealed record StageReadiness(string Stage, bool Ok, string Sentence);
