using MailKit.Net.Smtp;
using MailKit.Security;
using Microsoft.Extensions.Logging;
using VatWatch.Notifications.Contacts;
using VatWatch.Vats.Configuration;

namespace VatWatch.Notifications.Mail;

/// <summary>
/// Brings sentences to one contact by SMTP (RFC 5321, RFC 6409). The connection is kept while more waits and closed at rest; the password is
/// read from its file at every connection, so that a corrected one needs no restart.
/// </summary>
internal sealed class MailDelivery(
    MailOptions options, string site, Contact contact, AlarmPages pages, TimeZoneInfo zone, IVatPicture? picture, MailTimings timings, TimeProvider time, ILogger log) : IDelivery
{
    private readonly MailMessages _messages = new(options, site, contact, pages, zone);
    private SmtpClient? _client;

    public async Task<DeliveryOutcome> SendAsync(Notification notification, string key, CancellationToken cancel)
    {
        var chart = await DrawAsync(notification.Vat, cancel);
        try
        {
            if (_client is null && await ConnectAsync(cancel) is { } refusal)
            {
                return refusal;
            }

            using var message = _messages.Of(notification, key, chart);
            var answer = await StepAsync(token => _client!.SendAsync(message, token), cancel);
            return DeliveryOutcome.Taken($"{options.Address} took the mail for {((ContactWay.Mail)contact.Way).Address}: {FreeText.Quoted(answer)}");
        }
        catch (Exception wrong) when (!cancel.IsCancellationRequested)
        {
            await CloseAsync();
            var outcome = SmtpText.Of(wrong, options);
            return outcome with { Words = $"mail by {options.Address}: {outcome.Words}" };
        }
    }

    public Task RestAsync() => CloseAsync();

    public async ValueTask DisposeAsync() => await CloseAsync();

    /// <summary>Null when connected; an outcome when a named file is of no use.</summary>
    private async Task<DeliveryOutcome?> ConnectAsync(CancellationToken cancel)
    {
        var password = "";
        if (options.PasswordFile is { } file)
        {
            password = SecretFile.TryRead(file, out var fault);
            if (password is null)
            {
                return DeliveryOutcome.Later($"mail.passwordFile: {fault}") with { NeedsPerson = true };
            }
        }

        if (CertificateTrust.TryRead(options.CaFile, out var wrong) is not { } trust)
        {
            return DeliveryOutcome.Later($"mail.caFile: {wrong}") with { NeedsPerson = true };
        }

        var client = _client = new SmtpClient(new AnswerBound())
        {
            Timeout = (int)timings.Step.TotalMilliseconds,
            CheckCertificateRevocation = false,
            ServerCertificateValidationCallback = (_, certificate, chain, errors) => trust.Accepts(certificate, chain, errors),
        };
        var security = options.Security switch
        {
            MailSecurity.StartTls => SecureSocketOptions.StartTls,
            MailSecurity.Tls => SecureSocketOptions.SslOnConnect,
            _ => SecureSocketOptions.None,
        };
        await StepAsync(token => client.ConnectAsync(options.Host, options.Port, security, token), cancel);
        if (options.User is { } user)
        {
            await StepAsync(token => client.AuthenticateAsync(user, password, token), cancel);
        }

        return null;
    }

    /// <summary>The chart, unless it fails or takes too long; the text is not kept waiting for it.</summary>
    private async Task<byte[]?> DrawAsync(VatId vat, CancellationToken cancel)
    {
        if (picture is null || !options.WithChart || vat == VatId.Daemon)
        {
            return null;
        }

        using var limit = new Deadline(timings.Chart, time, cancel);
        try
        {
            return await Task.Run(() => picture.DrawAsync(vat, contact.Units, limit.Token), limit.Token).WaitAsync(limit.Token);
        }
        catch (Exception wrong) when (!cancel.IsCancellationRequested)
        {
            log.NoChart(vat.Value, limit.HasPassed ? $"not within {timings.Chart.TotalSeconds:0.#} s" : wrong.Message);
            return null;
        }
    }

    private Task<bool> StepAsync(Func<CancellationToken, Task> step, CancellationToken cancel) => StepAsync(
        async token =>
        {
            await step(token);
            return true;
        },
        cancel);

    private async Task<T> StepAsync<T>(Func<CancellationToken, Task<T>> step, CancellationToken cancel)
    {
        using var limit = new Deadline(timings.Step, time, cancel);
        return await step(limit.Token).WaitAsync(limit.Token);
    }

    private async Task CloseAsync()
    {
        if (_client is not { } client)
        {
            return;
        }

        _client = null;
        using var limit = new CancellationTokenSource(timings.Leave, time);
        try
        {
            await client.DisconnectAsync(quit: true, limit.Token).WaitAsync(limit.Token);
        }
        catch (Exception)
        {
            // Nothing of it is used again; disposing closes the socket.
        }
        finally
        {
            client.Dispose();
        }
    }
}
