using Microsoft.AspNetCore.Antiforgery;
using VatWatch.Daemon.Web.Vats;

namespace VatWatch.Daemon.Web.Pages;

/// <summary>What every page needs to know about the request it answers.</summary>
public sealed record PageFacts
{
    /// <summary>The place.</summary>
    public required SiteFacts Site { get; init; }

    /// <summary>This moment on the wall.</summary>
    public required LocalClock Clock { get; init; }

    /// <summary>When a number counts as old.</summary>
    public required Freshness Freshness { get; init; }

    /// <summary>Makes the anti-forgery tokens of the page's forms, and their cookie.</summary>
    public required Lazy<AntiforgeryTokenSet> Tokens { get; init; }

    /// <summary>Anti-forgery token for the page's forms. A page without a form asks for none, and then cryptography and the keys' XML stay out of memory.</summary>
    public string Token => Tokens.Value.RequestToken ?? "";

    /// <summary>Name of the form field that carries <see cref="Token"/>.</summary>
    public string TokenField => Tokens.Value.FormFieldName;

    /// <summary>Name last given with an acknowledgement from this browser; may be empty.</summary>
    public required string LastName { get; init; }

    /// <summary>Path of the page, for coming back to after a form.</summary>
    public required string Path { get; init; }

    /// <summary>Whether there is a session to end.</summary>
    public required bool CanSignOut { get; init; }

    /// <summary>Whether the person may change things; forms are shown only then.</summary>
    public required bool CanAct { get; init; }
}
