namespace VatWatch.Influx.Tests;

public sealed class BatchSenderTests
{
    [Fact]
    public async Task A_good_batch_is_one_request()
    {
        var server = new JudgingLink();
        var result = await SendAsync(new BatchSender(server), Lines(5000));
        Assert.Equal((5000, 0), (result.Accepted, result.Refused.Count));
        Assert.Single(server.Requests);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(2500)]
    [InlineData(4999)]
    public async Task One_bad_point_is_found_and_the_rest_goes_through(int bad)
    {
        var server = new JudgingLink { IsBad = line => line == $"p{bad}" };
        var result = await SendAsync(new BatchSender(server), Lines(5000));
        Assert.Null(result.Stopped);
        Assert.Equal(("p" + bad, "it answered 400, unable to parse"), Assert.Single(result.Refused));
        Assert.Equal(4999, server.Kept.Count);
        Assert.True(server.Requests.Count <= 30, $"{server.Requests.Count} requests");
    }

    [Fact]
    public async Task Many_bad_points_among_good_ones_are_all_found()
    {
        var server = new JudgingLink { IsBad = line => line.EndsWith('7') };
        var result = await SendAsync(new BatchSender(server), Lines(1000));
        Assert.Equal((900, 100), (result.Accepted, result.Refused.Count));
        Assert.All(result.Refused, point => Assert.EndsWith("7", point.Line, StringComparison.Ordinal));
    }

    [Fact]
    public async Task What_is_too_large_is_sent_in_parts_from_then_on()
    {
        var server = new JudgingLink { Most = 700 };
        var sender = new BatchSender(server);
        var first = await SendAsync(sender, Lines(5000));
        Assert.Equal(5000, first.Accepted);
        server.Requests.Clear();
        await SendAsync(sender, Lines(5000));
        Assert.Equal(8, server.Requests.Count);
        Assert.All(server.Requests, request => Assert.True(request <= 700));
    }

    [Fact]
    public async Task A_single_point_that_is_too_large_is_set_aside()
    {
        var result = await SendAsync(new BatchSender(new JudgingLink { Most = 0 }), Lines(3));
        Assert.Equal(3, result.Refused.Count);
    }

    [Fact]
    public async Task A_server_that_goes_away_in_the_middle_leaves_nothing_set_aside()
    {
        var server = new JudgingLink { IsBad = line => line == "p0", AwayAfter = 20 };
        var result = await SendAsync(new BatchSender(server), Lines(5000));
        Assert.Equal(WriteReplyKind.Away, result.Stopped?.Kind);
        Assert.Empty(result.Refused);
    }

    [Theory]
    [InlineData(1)]
    [InlineData(6)]
    [InlineData(5000)]
    public async Task A_server_that_understands_no_point_at_all_gets_nothing_set_aside(int count)
    {
        var server = new JudgingLink { IsBad = _ => true };
        var result = await SendAsync(new BatchSender(server), Lines(count));
        Assert.Equal(WriteReplyKind.Refused, result.Stopped?.Kind);
        Assert.Empty(result.Refused);
        Assert.True(server.Requests.Count < 100, $"{server.Requests.Count} requests");
    }

    [Fact]
    public async Task A_batch_of_bad_points_only_is_set_aside_when_the_server_still_takes_one_that_it_took()
    {
        var server = new JudgingLink { IsBad = line => line.StartsWith('q') };
        var sender = new BatchSender(server);
        await SendAsync(sender, Lines(10));
        var result = await SendAsync(sender, ["q1"]);
        Assert.Null(result.Stopped);
        Assert.Equal("q1", Assert.Single(result.Refused).Line);
    }

    [Fact]
    public async Task Points_that_are_understood_and_not_wanted_are_set_aside_even_when_they_are_all()
    {
        var server = new JudgingLink { IsBad = _ => true, Malformed = false };
        var result = await SendAsync(new BatchSender(server), Lines(100));
        Assert.Null(result.Stopped);
        Assert.Equal(100, result.Refused.Count);
    }

    private static IReadOnlyList<string> Lines(int count) => [.. Enumerable.Range(0, count).Select(number => $"p{number}")];

    private static Task<BatchResult> SendAsync(BatchSender sender, IReadOnlyList<string> lines) => sender.SendAsync(lines, TestContext.Current.CancellationToken);

    /// <summary>A server that keeps what is good and refuses a request with anything bad in it.</summary>
    private sealed class JudgingLink : IInfluxLink
    {
        public Func<string, bool> IsBad { get; init; } = _ => false;

        public int Most { get; init; } = int.MaxValue;

        public bool Malformed { get; init; } = true;

        public int AwayAfter { get; init; } = int.MaxValue;

        public List<int> Requests { get; } = [];

        public HashSet<string> Kept { get; } = [];

        public Task<WriteReply> WriteAsync(IReadOnlyList<string> lines, CancellationToken cancel)
        {
            Requests.Add(lines.Count);
            if (Requests.Count > AwayAfter)
            {
                return Task.FromResult(new WriteReply(WriteReplyKind.Away, "it is gone"));
            }

            if (lines.Count > Most)
            {
                return Task.FromResult(new WriteReply(WriteReplyKind.TooLarge, "it answered 413"));
            }

            if (lines.Any(IsBad))
            {
                return Task.FromResult(new WriteReply(WriteReplyKind.BadPoints, "it answered 400, unable to parse", null, Malformed));
            }

            Kept.UnionWith(lines);
            return Task.FromResult(new WriteReply(WriteReplyKind.Accepted));
        }
    }
}
