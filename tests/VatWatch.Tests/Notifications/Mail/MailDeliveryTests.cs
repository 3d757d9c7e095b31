using System.Net;
using System.Net.Sockets;
using System.Text;
using Microsoft.Extensions.Logging.Abstractions;
using MimeKit;
using VatWatch.Notifications;
using VatWatch.Notifications.Mail;
using VatWatch.Testing;
using VatWatch.Testing.Servers;

namespace VatWatch.Tests.Notifications.Mail;

/// <summary>Mails to a real server in another process, Debian's python3-aiosmtpd, with and without TLS and passwords.</summary>
[Trait("Starts", "processes")]
public sealed class MailDeliveryTests : IDisposable
{
    private const string Key = "dyer-7-1772403300000";
    private static readonly byte[] Picture = [0x89, (byte)'P', (byte)'N', (byte)'G', 1, 2, 3];
    private static readonly MailTimings Short = new() { Step = TimeSpan.FromSeconds(3), Chart = TimeSpan.FromMilliseconds(200) };
    private readonly string _secret = Path.GetTempFileName();

    public MailDeliveryTests() => File.WriteAllText(_secret, "right-horse\n");

    public void Dispose() => File.Delete(_secret);

    [Fact]
    public async Task A_mail_holds_the_sentence_in_subject_text_and_html_with_the_chart_and_what_to_do()
    {
        await using var server = await MailServer.StartAsync();
        var outcome = await SendAsync(To(server.Port), picture: new StillPicture(Picture));
        Assert.Equal((DeliveryKind.Taken, $"smtp://127.0.0.1:{server.Port} took the mail for dyer@studio.example: Taken for delivery"), (outcome.Kind, outcome.Words));
        var taken = Assert.Single(await server.WaitForAsync(1));
        Assert.Equal(["dyer@studio.example"], taken.To);
        var mail = Parse(taken);
        Assert.Equal("NOW: Madder Lane vat: 121.0 °F, limit 120 °F.", mail.Subject);
        Assert.Equal(("vats@studio.example", "VatWatch hill-studio"), (((MailboxAddress)mail.From[0]).Address, mail.From[0].Name));
        Assert.Equal($"{Key}.hill-studio@studio.example", mail.MessageId);
        Assert.Equal("auto-generated", mail.Headers["Auto-Submitted"]);
        Assert.StartsWith("Madder Lane vat: 121.0 °F, limit 120 °F.\n\nWhat to do: Switch the heater off at the plug.\n\nhttps://vats.example/vats/madder-lane/alarms/overheat\n", mail.TextBody!.ReplaceLineEndings("\n"), StringComparison.Ordinal);
        Assert.Contains("not a safety device", mail.TextBody, StringComparison.Ordinal);
        Assert.Contains("<b>Madder Lane vat: 121.0 &#176;F, limit 120 &#176;F.</b>", mail.HtmlBody!, StringComparison.Ordinal);
        Assert.Contains("<a href=\"https://vats.example/vats/madder-lane/alarms/overheat\">", mail.HtmlBody, StringComparison.Ordinal);
        var chart = Assert.Single(mail.BodyParts.OfType<MimePart>(), part => part.ContentType.IsMimeType("image", "png"));
        using var bytes = new MemoryStream();
        await chart.Content!.DecodeToAsync(bytes, TestContext.Current.CancellationToken);
        Assert.Equal(Picture, bytes.ToArray());
        Assert.Contains($"cid:{chart.ContentId}", mail.HtmlBody, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_second_try_has_the_same_message_id_and_another_sentence_another()
    {
        await using var server = await MailServer.StartAsync();
        await using var delivery = Delivery(To(server.Port));
        await delivery.SendAsync(SampleNotifications.TooHot(), Key, TestContext.Current.CancellationToken);
        await delivery.RestAsync();
        await delivery.SendAsync(SampleNotifications.TooHot(), Key, TestContext.Current.CancellationToken);
        await delivery.SendAsync(SampleNotifications.TooHot(), "dyer-8-1", TestContext.Current.CancellationToken);
        var ids = (await server.WaitForAsync(3)).Select(mail => Parse(mail).MessageId).ToList();
        Assert.Equal(ids[0], ids[1]);
        Assert.NotEqual(ids[0], ids[2]);
    }

    [Fact]
    public async Task An_alarm_that_is_over_is_not_marked_urgent_and_asks_for_nothing()
    {
        await using var server = await MailServer.StartAsync();
        await using var delivery = Delivery(To(server.Port));
        await delivery.SendAsync(SampleNotifications.TooHot(state: VatWatch.Alarms.AlarmState.ReturnedUnacknowledged), Key, TestContext.Current.CancellationToken);
        var mail = Parse((await server.WaitForAsync(1))[0]);
        Assert.StartsWith("Madder Lane vat:", mail.Subject, StringComparison.Ordinal);
        Assert.DoesNotContain("What to do", mail.TextBody, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("starttls", MailSecurity.StartTls)]
    [InlineData("tls", MailSecurity.Tls)]
    public async Task The_password_goes_over_TLS_to_a_server_whose_certificate_leads_to_our_authority(string mode, MailSecurity security)
    {
        using var certificates = new StudioCertificates();
        await using var server = await MailServer.StartAsync(mode, certificates, "watch", "right-horse");
        var outcome = await SendAsync(To(server.Port) with { Host = "localhost", Security = security, CaFile = certificates.Authority, User = "watch", PasswordFile = _secret });
        Assert.True(outcome.Kind == DeliveryKind.Taken, outcome.Words);
        var taken = Assert.Single(await server.WaitForAsync(1));
        Assert.True(taken.Tls);
        Assert.Equal("watch", taken.User);
    }

    [Fact]
    public async Task A_certificate_of_a_stranger_or_for_another_name_is_not_accepted()
    {
        using var certificates = new StudioCertificates();
        using var others = new StudioCertificates();
        using var elsewhere = new StudioCertificates("elsewhere.example");
        await using var server = await MailServer.StartAsync("starttls", certificates);
        await using var misnamed = await MailServer.StartAsync("starttls", elsewhere);
        MailOptions[] wrong =
        [
            To(server.Port) with { Host = "localhost", Security = MailSecurity.StartTls },
            To(server.Port) with { Host = "localhost", Security = MailSecurity.StartTls, CaFile = others.Authority },
            To(misnamed.Port) with { Host = "localhost", Security = MailSecurity.StartTls, CaFile = elsewhere.Authority },
        ];
        foreach (var options in wrong)
        {
            var outcome = await SendAsync(options);
            Assert.Equal((DeliveryKind.Later, true), (outcome.Kind, outcome.NeedsPerson));
            Assert.Contains("its certificate or encryption was not accepted (it is not signed by an authority that is trusted here", outcome.Words, StringComparison.Ordinal);
        }

        Assert.Empty(server.Mails);
    }

    [Fact]
    public async Task A_server_without_STARTTLS_gets_neither_password_nor_mail()
    {
        await using var server = await MailServer.StartAsync("none", user: "watch", password: "right-horse");
        var outcome = await SendAsync(To(server.Port) with { Security = MailSecurity.StartTls, User = "watch", PasswordFile = _secret });
        Assert.Equal((DeliveryKind.Later, true), (outcome.Kind, outcome.NeedsPerson));
        Assert.Contains("look at mail.security", outcome.Words, StringComparison.Ordinal);
        Assert.Empty(server.Mails);
    }

    [Fact]
    public async Task A_wrong_password_names_user_and_file_and_never_the_password()
    {
        using var certificates = new StudioCertificates();
        await using var server = await MailServer.StartAsync("starttls", certificates, "watch", "another-horse");
        var outcome = await SendAsync(To(server.Port) with { Host = "localhost", Security = MailSecurity.StartTls, CaFile = certificates.Authority, User = "watch", PasswordFile = _secret });
        Assert.Equal((DeliveryKind.Later, true), (outcome.Kind, outcome.NeedsPerson));
        Assert.Contains("refuses user 'watch'", outcome.Words, StringComparison.Ordinal);
        Assert.Contains(_secret, outcome.Words, StringComparison.Ordinal);
        Assert.DoesNotContain("horse", outcome.Words, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("answer-recipient 550 no such mailbox", DeliveryKind.Never, "the server refuses the recipient dyer@studio.example (550 no such mailbox)")]
    [InlineData("answer-recipient 450 try later", DeliveryKind.Later, "the server does not take mail for dyer@studio.example just now (450 try later)")]
    [InlineData("answer-data 554 looks like spam", DeliveryKind.Never, "the server refuses the message (554 looks like spam)")]
    [InlineData("answer-data 451 disk is full", DeliveryKind.Later, "the server answered 451 disk is full")]
    public async Task Refusals_are_for_good_or_for_now_by_their_code(string command, DeliveryKind kind, string words)
    {
        await using var server = await MailServer.StartAsync();
        await using var delivery = Delivery(To(server.Port));
        await server.TellAsync(command);
        var outcome = await delivery.SendAsync(SampleNotifications.TooHot(), Key, TestContext.Current.CancellationToken);
        Assert.Equal((kind, $"mail by smtp://127.0.0.1:{server.Port}: {words}"), (outcome.Kind, outcome.Words));
        await server.TellAsync($"{command.Split(' ')[0]} 0");
        Assert.Equal(DeliveryKind.Taken, (await delivery.SendAsync(SampleNotifications.TooHot(), Key, TestContext.Current.CancellationToken)).Kind);
    }

    [Fact]
    public async Task A_server_that_hangs_or_is_not_there_is_given_up_and_may_be_tried_again()
    {
        await using var server = await MailServer.StartAsync();
        await server.TellAsync("hang on");
        var hung = await SendAsync(To(server.Port));
        Assert.Equal((DeliveryKind.Later, false), (hung.Kind, hung.NeedsPerson));
        Assert.EndsWith("no answer in time", hung.Words, StringComparison.Ordinal);
        var absent = await SendAsync(To(FreePort.Next()));
        Assert.Equal(DeliveryKind.Later, absent.Kind);
        Assert.EndsWith("nothing listens there", absent.Words, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("220 me\r\n", "250-on and on\r\n")]
    [InlineData("", "220-on and on\r\n")]
    public async Task A_server_whose_answer_has_no_end_is_left_before_it_fills_the_memory(string greeting, string endless)
    {
        using var server = new TcpListener(IPAddress.Loopback, 0);
        server.Start();
        var talking = Task.Run(
            async () =>
            {
                using var visitor = await server.AcceptSocketAsync(TestContext.Current.CancellationToken);
                await visitor.SendAsync(Encoding.ASCII.GetBytes(greeting));
                var words = Encoding.ASCII.GetBytes(string.Concat(Enumerable.Repeat(endless, 1000)));
                long said = 0;
                try
                {
                    for (; said < 50_000_000; said += words.Length)
                    {
                        await visitor.SendAsync(words);
                    }
                }
                catch (SocketException)
                {
                    // It has hung up.
                }

                return said;
            },
            TestContext.Current.CancellationToken);
        var outcome = await SendAsync(To(((IPEndPoint)server.LocalEndpoint).Port));
        Assert.EndsWith("the connection broke off (its answer goes on after 64 KB)", outcome.Words, StringComparison.Ordinal);
        Assert.Equal(DeliveryKind.Later, outcome.Kind);
        Assert.InRange(await talking, 0, 20_000_000);
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public async Task A_chart_that_fails_or_takes_too_long_does_not_keep_the_mail(bool hangs)
    {
        await using var server = await MailServer.StartAsync();
        var outcome = await SendAsync(To(server.Port), picture: new BrokenPicture(hangs));
        Assert.Equal(DeliveryKind.Taken, outcome.Kind);
        Assert.DoesNotContain(Parse((await server.WaitForAsync(1))[0]).BodyParts, part => part.ContentType.IsMimeType("image", "png"));
    }

    private static MailOptions To(int port) => new() { Host = "127.0.0.1", Port = port, Security = MailSecurity.None, From = "vats@studio.example" };

    private static MailDelivery Delivery(MailOptions options, IVatPicture? picture = null) =>
        new(options, "hill-studio", SampleNotifications.Dyer, SampleNotifications.Pages, TimeZoneInfo.Utc, picture, Short, TimeProvider.System, NullLogger.Instance);

    private static async Task<DeliveryOutcome> SendAsync(MailOptions options, IVatPicture? picture = null)
    {
        await using var delivery = Delivery(options, picture);
        return await delivery.SendAsync(SampleNotifications.TooHot(), Key, TestContext.Current.CancellationToken);
    }

    private static MimeMessage Parse(MailServer.TakenMail mail)
    {
        using var raw = new MemoryStream(mail.Raw);
        return MimeMessage.Load(raw);
    }

    private sealed class StillPicture(byte[] picture) : IVatPicture
    {
        public Task<byte[]?> DrawAsync(VatId vat, DisplayUnits units, CancellationToken cancel) => Task.FromResult<byte[]?>(picture);
    }

    private sealed class BrokenPicture(bool hangs) : IVatPicture
    {
        public async Task<byte[]?> DrawAsync(VatId vat, DisplayUnits units, CancellationToken cancel)
        {
            if (hangs)
            {
                await Task.Delay(Timeout.Infinite, CancellationToken.None);
            }

            throw new InvalidOperationException("no ink");
        }
    }
}
