namespace VatWatch.Daemon.Web.Health;

/// <summary>Answer of <c>/health/ready</c>.</summary>
/// <param name="Ready">Whether every stage does its job.</param>
/// <param name="Stages">Every stage; empty for who has not given the password.</param>
internal sealed record ReadyReply(bool Ready, IReadOnlyList<StageReadiness> Stages);
