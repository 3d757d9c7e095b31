using System.Globalization;
using System.Text.RegularExpressions;
using VatWatch.Alarms;
using VatWatch.Notifications.Mail;
using VatWatch.Notifications.Webhook;
using VatWatch.Vats.Configuration;

namespace VatWatch.Notifications.Contacts;

/// <summary>Reads one contact after the other; knows which names are taken. Faults are filed.</summary>
internal sealed partial class ContactReader(DisplayUnits usual, bool hasMail)
{
    private const string WantedTime = "a local time of day, such as \"07:00\"";
    private static readonly TimeSpan OneDay = TimeSpan.FromDays(1);
    private static readonly TimeSpan OneMinute = TimeSpan.FromMinutes(1);

    /// <summary>Repeats unless the contact says otherwise: with 10 min between them, an hour.</summary>
    private const int UsualRepeats = 6;

    private static readonly Dictionary<string, string> Ways = new(StringComparer.Ordinal) { ["mqtt"] = "mqtt", ["mail"] = "mail", ["webhook"] = "webhook" };
    private readonly HashSet<string> _used = new(StringComparer.Ordinal);
    private bool _topicTaken;

    public Contact Read(ConfigNode node)
    {
        var id = node.Name("id");
        if (id.Length > 0 && !_used.Add(id))
        {
            node.Faults.Add(node.PathOf("id"), $"\"{id}\" for a second time", "a name used once in the file");
        }

        var contact = new Contact
        {
            Id = id,
            Name = node.Title("name", id),
            Way = ReadWay(node, id),
            MinimumPriority = node.Choice("minimumPriority", EnumWord.All<AlarmPriority>(), AlarmPriority.Low),
            Units = node.Choice("units", DisplayUnits.All, usual),
            After = node.Duration("after", TimeSpan.Zero, OneDay, TimeSpan.Zero),
            Repeat = ReadRepeat(node),
            Hours = node.OptionalSection("hours") is { } hours ? ReadHours(hours, out var criticalAlways) : None(out criticalAlways),
            CriticalAlways = criticalAlways,
        };
        node.Done();
        return contact;
    }

    private ContactWay ReadWay(ConfigNode node, string id)
    {
        switch (node.Choice("way", Ways, "", required: true))
        {
            case "mail":
                if (!hasMail)
                {
                    node.Faults.Add(node.PathOf("way"), "\"mail\"", "a section \"mail\" at the root of the file that names the server");
                }

                return new ContactWay.Mail(MailOptions.ReadAddress(node, "address"));
            case "webhook":
                return new ContactWay.Webhook(WebhookOptions.Read(node));
            case "mqtt":
                var own = node.Flag("ownTopic", false);
                if (!own && _topicTaken)
                {
                    node.Faults.Add(node.PathOf("ownTopic"), node.Shown("ownTopic"), "true: another contact has the common topic already, and would be told twice");
                }

                _topicTaken |= !own;
                return new ContactWay.Topic(own ? id : null);
            default:
                return new ContactWay.Topic(null);
        }
    }

    private static ContactRepeat? ReadRepeat(ConfigNode node)
    {
        if (!node.Has("repeat"))
        {
            if (node.Has("mostRepeats"))
            {
                node.Faults.Add(node.PathOf("mostRepeats"), node.Shown("mostRepeats"), "no such key without \"repeat\"");
            }

            return null;
        }

        return new(node.Duration("repeat", OneMinute, OneDay), node.Whole("mostRepeats", 1, 100, UsualRepeats));
    }

    private static ContactHours? None(out bool criticalAlways)
    {
        criticalAlways = true;
        return null;
    }

    private static ContactHours? ReadHours(ConfigNode node, out bool criticalAlways)
    {
        var (from, to) = (node.Matching("from", ClockTime(), WantedTime), node.Matching("to", ClockTime(), WantedTime));
        criticalAlways = node.Flag("criticalAlways", true);
        var zone = node.Zone("zone");
        node.Done();
        if (from.Length == 0 || to.Length == 0)
        {
            return null;
        }

        if (from == to)
        {
            node.Faults.Add(node.PathOf("to"), ConfigNode.Quote(to), "another time than \"from\", or no hours at all for always");
        }

        return new(TimeOnly.ParseExact(from, "HH:mm", CultureInfo.InvariantCulture), TimeOnly.ParseExact(to, "HH:mm", CultureInfo.InvariantCulture), zone);
    }

    [GeneratedRegex("^([01][0-9]|2[0-3]):[0-5][0-9]$", RegexOptions.CultureInvariant)]
    private static partial Regex ClockTime();
}
