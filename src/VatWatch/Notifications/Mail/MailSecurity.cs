namespace VatWatch.Notifications.Mail;

/// <summary>How the connection to a mail server is protected.</summary>
public enum MailSecurity
{
    /// <summary>It begins in the clear and must turn to TLS before anything is said (RFC 3207); usual on port 587.</summary>
    StartTls,

    /// <summary>TLS from the first byte (RFC 8314 §3.3); usual on port 465.</summary>
    Tls,

    /// <summary>None; only for a relay on this machine or in a trusted network, and never with a password beyond this machine.</summary>
    None,
}
