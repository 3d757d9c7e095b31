using System.Globalization;
using VatWatch.Testing;

namespace VatWatch.Influx.Tests;

public sealed class InfluxLinkTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("link-test-").FullName;

    public static TheoryData<string, string, string> Replies => new()
    {
        { "204", nameof(WriteReplyKind.Accepted), "" },
        { "400", nameof(WriteReplyKind.BadPoints), "it answered 400, unable to parse points: bad timestamp" },
        { "401", nameof(WriteReplyKind.Refused), "it answered 401, unauthorized access" },
        { "403", nameof(WriteReplyKind.Refused), "it answered 403, insufficient permissions for write" },
        { "404", nameof(WriteReplyKind.Refused), "it answered 404, bucket not found" },
        { "413", nameof(WriteReplyKind.TooLarge), "it answered 413, cannot read data: points batch is too large" },
        { "422", nameof(WriteReplyKind.BadPoints), "it answered 422, partial write: field type conflict" },
        { "429", nameof(WriteReplyKind.Away), "it answered 429, org has exceeded its write limit" },
        { "500", nameof(WriteReplyKind.Away), "it answered 500, unexpected error writing points" },
        { "502", nameof(WriteReplyKind.Away), "it answered 502" },
        { "503", nameof(WriteReplyKind.Away), "it answered 503, the server is temporarily unable to accept writes" },
        { "302", nameof(WriteReplyKind.Refused), "it answered 302" },
        { "200", nameof(WriteReplyKind.Refused), "it answered 200; wanted 204" },
    };

    [Theory]
    [MemberData(nameof(Replies))]
    public async Task Every_documented_reply_is_told_apart(string status, string kind, string reason)
    {
        await using var server = await RecordingInflux.StartAsync();
        server.Answer(ReplyOf(status));
        using var link = Link(server);
        var reply = await WriteAsync(link);
        Assert.Equal(kind, reply.Kind.ToString());
        Assert.StartsWith(reason, reply.Reason, StringComparison.Ordinal);
        Assert.Equal(status == "400", reply.Malformed);
        Assert.DoesNotContain("write-only", reply.Reason, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("7", 7, 7)]
    [InlineData("date", 25, 31)]
    [InlineData("soon", null, null)]
    [InlineData(null, null, null)]
    public async Task The_wait_the_server_asks_for_is_read_in_seconds_or_as_a_date(string? header, int? least, int? most)
    {
        await using var server = await RecordingInflux.StartAsync();
        var value = header == "date" ? DateTimeOffset.UtcNow.AddSeconds(30).ToString("r", CultureInfo.InvariantCulture) : header;
        server.Answer(RecordedReply.TooMany(value), RecordedReply.Unavailable(value));
        using var link = Link(server);
        foreach (var reply in new[] { await WriteAsync(link), await WriteAsync(link) })
        {
            Assert.Equal(WriteReplyKind.Away, reply.Kind);
            Assert.Equal(least is null, reply.RetryAfter is null);
            Assert.True(reply.RetryAfter is null || (reply.RetryAfter.Value.TotalSeconds >= least && reply.RetryAfter.Value.TotalSeconds <= most), $"{reply.RetryAfter}");
        }
    }

    [Fact]
    public async Task What_the_server_says_steers_nobodys_terminal_and_has_an_end()
    {
        await using var server = await RecordingInflux.StartAsync();
        server.Answer(
            new RecordedReply(500, """{"code":"x","message":"\u001b[2Jall \u202Egood\u2066\u0000 here"}"""),
            new RecordedReply(500, new string('x', 1_000_000)));
        using var link = Link(server);
        Assert.Equal("it answered 500, [2Jall good here", (await WriteAsync(link)).Reason);
        var endless = await WriteAsync(link);
        Assert.Equal(WriteReplyKind.Away, endless.Kind);
        Assert.InRange(endless.Reason!.Length, 1, 250);
    }

    [Fact]
    public async Task A_write_is_compressed_and_names_bucket_organisation_precision_and_token()
    {
        await using var server = await RecordingInflux.StartAsync();
        using var link = Link(server);
        Assert.Equal(WriteReplyKind.Accepted, (await WriteAsync(link, "m,site=a f=1 5", "m,site=a f=2 6")).Kind);
        var write = Assert.Single(server.Writes);
        Assert.True(write.IsGzip);
        Assert.Equal("?org=studio&bucket=vats&precision=ns", write.Query);
        Assert.Equal("Token write-only", write.Authorization);
        Assert.Equal(["m,site=a f=1 5", "m,site=a f=2 6"], write.Lines);
    }

    [Fact]
    public async Task A_new_token_is_read_after_the_old_one_was_refused()
    {
        await using var server = await RecordingInflux.StartAsync();
        using var link = Link(server);
        server.Token = "write-only";
        Assert.Equal(WriteReplyKind.Accepted, (await WriteAsync(link)).Kind);
        server.Token = "second";
        File.WriteAllText(TokenFile, "second\n");
        Assert.Equal(WriteReplyKind.Refused, (await WriteAsync(link)).Kind);
        Assert.Equal(WriteReplyKind.Accepted, (await WriteAsync(link)).Kind);
    }

    [Fact]
    public async Task A_token_file_that_is_not_there_is_told_and_looked_for_again()
    {
        await using var server = await RecordingInflux.StartAsync();
        using var link = Link(server);
        File.Delete(TokenFile);
        var reply = await WriteAsync(link);
        Assert.Equal(WriteReplyKind.Refused, reply.Kind);
        Assert.Equal($"there is no file {TokenFile}", reply.Reason);
        File.WriteAllText(TokenFile, "write-only");
        Assert.Equal(WriteReplyKind.Accepted, (await WriteAsync(link)).Kind);
    }

    [Fact]
    public async Task A_server_that_does_not_answer_is_given_up_in_time_and_said_so()
    {
        await using var server = await RecordingInflux.StartAsync();
        server.Delay = TimeSpan.FromSeconds(60);
        using var link = Link(server, options => options with { Timeout = TimeSpan.FromSeconds(1) });
        var reply = await WriteAsync(link).WaitAsync(TimeSpan.FromSeconds(20), TestContext.Current.CancellationToken);
        Assert.Equal(WriteReplyKind.Away, reply.Kind);
        Assert.Equal("it did not answer within 1 s", reply.Reason);
    }

    [Fact]
    public async Task A_stop_ends_a_request_at_once()
    {
        await using var server = await RecordingInflux.StartAsync();
        server.Delay = TimeSpan.FromSeconds(60);
        using var link = Link(server);
        using var stop = new CancellationTokenSource(TimeSpan.FromMilliseconds(200));
        await Assert.ThrowsAnyAsync<OperationCanceledException>(() => link.WriteAsync(["m f=1 1"], stop.Token).WaitAsync(TimeSpan.FromSeconds(20), TestContext.Current.CancellationToken));
    }

    [Fact]
    public async Task A_server_that_is_not_there_is_away()
    {
        await using var server = await RecordingInflux.StartAsync();
        await server.StopAsync();
        using var link = Link(server);
        var reply = await WriteAsync(link);
        Assert.Equal(WriteReplyKind.Away, reply.Kind);
        Assert.Contains("refused", reply.Reason, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_certificate_of_an_authority_that_is_named_is_trusted_and_another_is_not()
    {
        using var certificates = new StudioCertificates();
        using var others = new StudioCertificates();
        await using var server = await RecordingInflux.StartAsync(certificates);
        using var trusting = Link(server, options => options with { CaFile = certificates.Authority });
        Assert.Equal(WriteReplyKind.Accepted, (await WriteAsync(trusting)).Kind);
        foreach (var file in new[] { others.Authority, null })
        {
            using var doubting = Link(server, options => options with { CaFile = file });
            var reply = await WriteAsync(doubting);
            Assert.Equal(WriteReplyKind.Away, reply.Kind);
            Assert.Contains("SSL", reply.Reason, StringComparison.Ordinal);
        }
    }

    [Fact]
    public async Task A_certificate_for_another_name_is_not_trusted()
    {
        using var certificates = new StudioCertificates("other-studio");
        await using var server = await RecordingInflux.StartAsync(certificates);
        using var link = Link(server, options => options with { CaFile = certificates.Authority });
        Assert.Equal(WriteReplyKind.Away, (await WriteAsync(link)).Kind);
        Assert.Empty(server.Writes);
    }

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    private string TokenFile => Path.Combine(_folder, "token");

    private InfluxLink Link(RecordingInflux server, Func<InfluxOptions, InfluxOptions>? change = null)
    {
        File.WriteAllText(TokenFile, "write-only\n");
        var options = new InfluxOptions { Url = new Uri(server.Url), Org = "studio", Bucket = "vats", TokenFile = TokenFile };
        return new InfluxLink(change?.Invoke(options) ?? options, TimeProvider.System);
    }

    private static Task<WriteReply> WriteAsync(InfluxLink link, params string[] lines) =>
        link.WriteAsync(lines.Length == 0 ? ["m,site=a f=1 1"] : lines, TestContext.Current.CancellationToken);

    private static RecordedReply ReplyOf(string status) => status switch
    {
        "204" => RecordedReply.Accepted,
        "400" => RecordedReply.Malformed,
        "401" => RecordedReply.Unauthorized,
        "403" => RecordedReply.Forbidden,
        "404" => RecordedReply.NoBucket,
        "413" => RecordedReply.TooLarge,
        "422" => RecordedReply.Unprocessable,
        "429" => RecordedReply.TooMany(null),
        "500" => RecordedReply.InternalError,
        "502" => RecordedReply.BadGateway,
        "503" => RecordedReply.Unavailable(null),
        "302" => new RecordedReply(302, "<html>Sign in</html>"),
        _ => new RecordedReply(int.Parse(status, CultureInfo.InvariantCulture), "<html>Welcome</html>"),
    };
}
