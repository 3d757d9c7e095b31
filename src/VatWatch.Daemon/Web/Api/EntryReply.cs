using VatWatch.Daemon.Web.LogBook;
using VatWatch.Sessions;

namespace VatWatch.Daemon.Web.Api;

/// <summary>One entry of the log book as programs get it.</summary>
/// <param name="Id">Its number; entries are in order of it.</param>
/// <param name="Vat">The vat.</param>
/// <param name="Session">The session; null for one between sessions.</param>
/// <param name="Time">When, UTC.</param>
/// <param name="TimeTrusted">Whether the clock was known to be right.</param>
/// <param name="Kind">dip-in, dip-out, added, stirred, lid-off, lid-on, note or photo.</param>
/// <param name="By">Who wrote it.</param>
/// <param name="Material">What was added.</param>
/// <param name="Amount">How much, in <paramref name="Unit"/>.</param>
/// <param name="Unit">g or L.</param>
/// <param name="Text">What is written beside it.</param>
/// <param name="Photo">Address of its picture.</param>
/// <param name="Withdrawn">When it was withdrawn, UTC; null while it stands.</param>
internal sealed record EntryReply(
    long Id, string Vat, string? Session, DateTimeOffset Time, bool TimeTrusted, string Kind, string By,
    string? Material, double? Amount, string? Unit, string? Text, string? Photo, DateTimeOffset? Withdrawn)
{
    internal static EntryReply Of(SessionEntry entry) => new(
        entry.Id,
        entry.Vat.Value,
        entry.Session?.Value,
        entry.At.Utc,
        entry.At.UtcTrusted,
        entry.Kind.Word(),
        entry.By,
        entry.Material?.Word(),
        entry.Amount.Finite(),
        entry.Material?.Unit(),
        entry.Text,
        entry is { Kind: EntryKind.Photo, Withdrawn: null } ? PhotoEndpoint.Href(entry) : null,
        entry.Withdrawn);
}
