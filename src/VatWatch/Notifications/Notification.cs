using System.Text.Json;
using VatWatch.Alarms;

namespace VatWatch.Notifications;

/// <summary>One sentence on its way to a person; a row of the outbox until it is delivered.</summary>
/// <param name="Id">Row of the outbox; grows with time.</param>
/// <param name="Created">When the alarm changed, UTC.</param>
/// <param name="Sentence">What the phone shows.</param>
public sealed record Notification(long Id, VatId Vat, AlarmName Alarm, AlarmPriority Priority, DateTimeOffset Created, string Sentence)
{
    /// <summary>The alarm at that moment, as its topic shows it (JSON); null for a sentence about no single alarm.</summary>
    public string? Document { get; init; }

    /// <summary>What to do about the alarm; null once it has returned, and for a sentence about no single alarm.</summary>
    public string? Action => Field("state") == AlarmState.Unacknowledged.Word() ? Field("action") : null;

    /// <summary>Sent again with nothing new, so of no use while the one before still waits; not kept in the outbox.</summary>
    public bool IsRepeat { get; init; }

    private string? Field(string name)
    {
        if (Document is not { } json)
        {
            return null;
        }

        using var document = JsonDocument.Parse(json);
        return document.RootElement.TryGetProperty(name, out var value) && value.ValueKind == JsonValueKind.String ? value.GetString() : null;
    }
}

/// <summary>Addresses of the pages that a notification leads to.</summary>
/// <param name="root">Where the pages are, as people's browsers reach them; null when the configuration does not say.</param>
public sealed class AlarmPages(Uri? root)
{
    /// <summary>The page of the alarm; that of all alarms for one of the daemon or a sentence about no single alarm. Null when there is no address.</summary>
    public string? Of(Notification notification) => root is null ? null
        : notification.Document is null || notification.Vat == VatId.Daemon ? new Uri(root, "/alarms").AbsoluteUri
        : new Uri(root, $"/vats/{notification.Vat}/alarms/{notification.Alarm}").AbsoluteUri;
}
