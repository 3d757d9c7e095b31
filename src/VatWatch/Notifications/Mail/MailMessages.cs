using System.Net;
using MimeKit;
using MimeKit.Utils;
using VatWatch.Alarms;
using VatWatch.Notifications.Contacts;

namespace VatWatch.Notifications.Mail;

/// <summary>Makes the mail of one sentence: a subject fit for a lock screen, plain text, the same as simple HTML, and the chart when there is one.</summary>
internal sealed class MailMessages(MailOptions options, string site, Contact contact, AlarmPages pages, TimeZoneInfo zone)
{
    /// <summary>Phones show 30 to 60 characters of a subject; a mail server may fold or cut what is much longer.</summary>
    private const int LongestSubject = 120;

    /// <summary>The mail; the same <paramref name="key"/> gives the same Message-ID, by which a mailbox knows a repeat.</summary>
    public MimeMessage Of(Notification notification, string key, byte[]? picture)
    {
        var message = new MimeMessage();
        message.From.Add(new MailboxAddress($"VatWatch {site}", options.From));
        message.To.Add(new MailboxAddress(contact.Name, ((ContactWay.Mail)contact.Way).Address));
        message.Subject = Subject(notification);
        message.Date = notification.Created;
        message.MessageId = $"{key}.{site}@{Domain(options.From)}";

        // RFC 3834 §5: tells mail programs not to answer a machine.
        message.Headers.Add("Auto-Submitted", "auto-generated");
        if (notification.Priority == AlarmPriority.Critical)
        {
            message.Importance = MessageImportance.High;
        }

        message.Body = Body(notification, picture);
        return message;
    }

    private static string Subject(Notification notification)
    {
        var mark = notification.Priority == AlarmPriority.Critical && notification.Action is not null ? "NOW: " : "";
        var subject = mark + notification.Sentence.ReplaceLineEndings(" ");
        return subject.Length <= LongestSubject ? subject : subject[..(LongestSubject - 3)].TrimEnd() + "...";
    }

    private MimeEntity Body(Notification notification, byte[]? picture)
    {
        List<string> lines = [notification.Sentence];
        if (notification.Action is { } action)
        {
            lines.Add($"What to do: {action}");
        }

        if (pages.Of(notification) is { } page)
        {
            lines.Add(page);
        }

        var when = WallTime.Text(notification.Created, zone);
        string[] foot =
        [
            $"Alarm {notification.Alarm} of {notification.Vat}, priority {notification.Priority.Word()}, {when}, site {site}.",
            "VatWatch is not a safety device. A message can be late or lost.",
        ];
        var builder = new BodyBuilder { TextBody = string.Join("\n\n", lines) + "\n\n-- \n" + string.Join("\n", foot) + "\n" };
        var image = "";
        if (picture is not null)
        {
            var chart = builder.LinkedResources.Add("chart.png", picture, new ContentType("image", "png"));
            chart.ContentId = MimeUtils.GenerateMessageId(Domain(options.From));
            image = $"<p><img src=\"cid:{chart.ContentId}\" alt=\"The last hours of {Html(notification.Vat.Value)}\" style=\"max-width:100%\"></p>";
        }

        var paragraphs = string.Concat(lines.Select((line, index) => index == 0 ? $"<p style=\"font-size:1.25em\"><b>{Html(line)}</b></p>" : $"<p>{Linked(line)}</p>"));
        builder.HtmlBody =
            $"<!doctype html><html lang=\"en\"><body style=\"font-family:sans-serif\">{paragraphs}{image}<hr><p style=\"font-size:.85em\">{string.Join("<br>", foot.Select(Html))}</p></body></html>";
        return builder.ToMessageBody();
    }

    private static string Linked(string line) =>
        line.StartsWith("http", StringComparison.Ordinal) ? $"<a href=\"{Html(line)}\">{Html(line)}</a>" : Html(line);

    private static string Domain(string address) => address[(address.IndexOf('@', StringComparison.Ordinal) + 1)..];

    private static string Html(string text) => WebUtility.HtmlEncode(text);
}
