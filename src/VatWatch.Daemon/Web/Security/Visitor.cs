using System.Net.Sockets;
using System.Text.Json.Serialization;
using Microsoft.AspNetCore.Connections.Features;

namespace VatWatch.Daemon.Web.Security;

/// <summary>Who asks, as the gate found out; kept with the request.</summary>
/// <param name="Session">The browser's session that says so, which can be ended; null for who comes without one.</param>
internal sealed record Visitor(Role Role, string? Session)
{
    /// <summary>Everybody, where nothing guards the pages.</summary>
    public static Visitor Anybody { get; } = new(Role.Operator, null);

    /// <summary>A program of this computer on the local socket, which only those can open whom the folder's rights let.</summary>
    public static Visitor Local { get; } = new(Role.Operator, null) { IsLocal = true };

    /// <summary>Whether the request came over the local socket.</summary>
    public bool IsLocal { get; private init; }

    /// <summary>Whether a request comes over the local socket.</summary>
    public static bool ComesLocally(HttpContext context) => context.Features.Get<IConnectionSocketFeature>()?.Socket.AddressFamily == AddressFamily.Unix;

    /// <summary>The visitor of a request; null for a stranger on one of the open paths.</summary>
    public static Visitor? Of(HttpContext context) => context.Features.Get<Visitor>();

    public void KeepIn(HttpContext context) => context.Features.Set(this);
}

/// <summary>What somebody may do on the pages and through the interface.</summary>
[JsonConverter(typeof(JsonStringEnumConverter<Role>))]
public enum Role
{
    /// <summary>Look at everything, change nothing.</summary>
    [JsonStringEnumMemberName("viewer")]
    Viewer,

    /// <summary>Look and change: acknowledge, shelve, write into the log book, calibrate.</summary>
    [JsonStringEnumMemberName("operator")]
    Operator,
}
