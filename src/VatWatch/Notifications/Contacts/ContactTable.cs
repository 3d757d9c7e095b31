using VatWatch.Notifications.Mail;
using VatWatch.Vats.Configuration;

namespace VatWatch.Notifications.Contacts;

/// <summary>Everybody who is notified, in the order of the file, and the server that sends mail to those who are notified by mail.</summary>
/// <param name="Contacts">At least one.</param>
/// <param name="Mail">The <c>mail</c> section; null without one.</param>
public sealed record ContactTable(IReadOnlyList<Contact> Contacts, MailOptions? Mail)
{
    /// <summary>Addresses of the pages that notifications lead to.</summary>
    public AlarmPages Pages { get; init; } = new(null);

    /// <summary>Time zone of the site, for the times in messages.</summary>
    public TimeZoneInfo Zone { get; init; } = TimeZoneInfo.Local;

    /// <summary>More contacts than this is a slip of the pen.</summary>
    private const int MostContacts = 50;

    /// <summary>Without any section: MQTT, as it always was.</summary>
    public static ContactTable Usual(DisplayUnits units) => new([Contact.Topic(units)], null);

    /// <summary>Reads <c>contacts</c> and <c>mail</c> from the root of the file; faults are filed.</summary>
    public static ContactTable Read(ConfigNode root, DisplayUnits units)
    {
        var mail = root.OptionalSection("mail") is { } section ? MailOptions.Read(section) : null;
        if (!root.Has("contacts"))
        {
            return Usual(units) with { Mail = mail, Zone = root.Faults.Zone };
        }

        var nodes = root.Sections("contacts", "a list of at least one contact", required: true);
        if (nodes.Count > MostContacts)
        {
            root.Faults.Add("contacts", $"{nodes.Count} contacts", $"at most {MostContacts}");
            return Usual(units) with { Mail = mail, Zone = root.Faults.Zone };
        }

        var reader = new ContactReader(units, mail is not null);
        return new([.. nodes.Select(reader.Read)], mail) { Zone = root.Faults.Zone };
    }
}
