using MailKit;
using MailKit.Net.Smtp;
using MailKit.Security;

namespace VatWatch.Notifications.Mail;

/// <summary>Turns what the mail library throws into outcomes with clauses for people.</summary>
internal static class SmtpText
{
    /// <summary>
    /// A 5xx to the recipient or the message is for good; everything else may pass. A server that refuses us or our sender refuses every
    /// message: those wait until a person has mended it.
    /// </summary>
    public static DeliveryOutcome Of(Exception wrong, MailOptions options) => wrong switch
    {
        SmtpCommandException refused => Of(refused),
        AuthenticationException => Person(
            $"it refuses user '{options.User}' ({FreeText.Quoted(wrong.Message)}); look at mail.user and the first line of {options.PasswordFile}"),
        SslHandshakeException => Person($"its certificate or encryption was not accepted ({Handshake(wrong.GetBaseException().Message)}); look at mail.server, mail.security and mail.caFile"),
        NotSupportedException => Person($"it lacks what the settings ask for ({FreeText.Quoted(wrong.Message)}); look at mail.security and mail.user"),
        _ => DeliveryOutcome.Later(Clause(wrong)),
    };

    private static DeliveryOutcome Of(SmtpCommandException refused)
    {
        var code = ((int)refused.StatusCode).ToString();
        var said = $"{code} {FreeText.Quoted(refused.Message)}";
        var isForGood = (int)refused.StatusCode >= 500;
        return refused.ErrorCode switch
        {
            SmtpErrorCode.RecipientNotAccepted when isForGood => DeliveryOutcome.Never($"the server refuses the recipient {refused.Mailbox?.Address} ({said})"),
            SmtpErrorCode.RecipientNotAccepted => DeliveryOutcome.Later($"the server does not take mail for {refused.Mailbox?.Address} just now ({said})"),
            SmtpErrorCode.MessageNotAccepted when isForGood => DeliveryOutcome.Never($"the server refuses the message ({said})"),
            SmtpErrorCode.SenderNotAccepted when isForGood => Person($"the server refuses the sender {refused.Mailbox?.Address} ({said}); look at mail.from"),
            _ => DeliveryOutcome.Later($"the server answered {said}"),
        };
    }

    /// <summary>The framework says of a certificate that we refused only which piece of code refused it.</summary>
    private static string Handshake(string message) => message.Contains("RemoteCertificateValidationCallback", StringComparison.Ordinal)
        ? "it is not signed by an authority that is trusted here, is out of date, or is made for another name"
        : FreeText.Quoted(message);

    private static DeliveryOutcome Person(string words) => DeliveryOutcome.Later(words) with { NeedsPerson = true };

    private static string Clause(Exception wrong) => NetworkText.Find(wrong)
        ?? (wrong is ServiceNotConnectedException or IOException or ProtocolException
            ? $"the connection broke off ({FreeText.Quoted(wrong.GetBaseException().Message)})"
            : $"it could not be sent ({FreeText.Quoted(wrong.GetBaseException().Message)})");
}
