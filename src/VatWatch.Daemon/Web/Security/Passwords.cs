namespace VatWatch.Daemon.Web.Security;

/// <summary>The passwords of a site. Immutable.</summary>
/// <param name="Operator">Of those who may change things.</param>
/// <param name="Viewer">Of those who may only look; null when there is none.</param>
internal sealed record Passwords(PasswordHash Operator, PasswordHash? Viewer = null)
{
    /// <summary>Whose password it is; slow on purpose. One that both share is the operator's.</summary>
    public Role? RoleOf(string password) =>
        Operator.Matches(password) ? Role.Operator : Viewer?.Matches(password) == true ? Role.Viewer : null;

    /// <summary>Whose session a fingerprint belongs to; null once the password has changed.</summary>
    public Role? RoleOfFingerprint(string? fingerprint) =>
        fingerprint is null ? null : fingerprint == Operator.Fingerprint ? Role.Operator : fingerprint == Viewer?.Fingerprint ? Role.Viewer : null;

    /// <summary>The fingerprint that a new session carries.</summary>
    public string Fingerprint(Role role) => role == Role.Viewer && Viewer is not null ? Viewer.Fingerprint : Operator.Fingerprint;
}
