namespace VatWatch.Daemon.Web.Security;

/// <summary>What became of a password.</summary>
/// <param name="WasLookedAt">False when there were too many tries to look at this one.</param>
/// <param name="Role">Whose password it is; null when it is nobody's.</param>
internal readonly record struct LoginAnswer(bool WasLookedAt, Role? Role);
