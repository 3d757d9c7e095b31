namespace VatWatch.Daemon.Web.Health;

/// <summary>How one stage is doing.</summary>
/// <param name="Stage">Its name, for example "store".</param>
/// <param name="Ok">Whether it does its job.</param>
/// <param name="Sentence">In words.</param>
internal sealed record StageReadiness(string Stage, bool Ok, string Sentence);
