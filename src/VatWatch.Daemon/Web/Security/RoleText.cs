namespace VatWatch.Daemon.Web.Security;

/// <summary>The words of <see cref="Role"/> in files, on the command line and on pages.</summary>
internal static class RoleText
{
    /// <summary>"viewer" or "operator".</summary>
    public static string Word(this Role role) => role == Role.Viewer ? "viewer" : "operator";

    /// <summary>The role by its word; null for any other.</summary>
    public static Role? RoleOf(string? word) => word switch
    {
        "viewer" => Role.Viewer,
        "operator" => Role.Operator,
        _ => null,
    };
}
