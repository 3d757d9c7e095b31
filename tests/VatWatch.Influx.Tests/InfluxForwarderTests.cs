using VatWatch.Alarms;
using VatWatch.Store;
using VatWatch.Testing;
using static VatWatch.Influx.Tests.CopyRig;

namespace VatWatch.Influx.Tests;

public sealed class InfluxForwarderTests
{
    [Fact]
    public async Task Readings_conditions_and_alarm_changes_arrive_exactly_as_stored()
    {
        await using var server = await RecordingInflux.StartAsync();
        await using var rig = new CopyRig(server);
        await rig.OfferAsync(Reading(0), Reading(1, null), Reading(2, -705, "liquor-orp", Vats.Quantity.Orp));
        await rig.KeepAsync(Change(1));
        await rig.KeepAsync(Condition(2));
        rig.Start();
        await rig.CopiedAsync(server);
        Assert.Equal(5, server.Points.Count);
        Assert.Equal((3, 1, 1), (server.CountOf("vat_reading", "hill-studio"), server.CountOf("vat_condition", "hill-studio"), server.CountOf("vat_alarm", "hill-studio")));
        Assert.Equal(5, rig.Forwarder.State.Sent);
        await rig.OfferAsync(Reading(3));
        await rig.CopiedAsync(server);
        Assert.Equal(6, server.Points.Count);
    }

    [Fact]
    public async Task Two_readings_of_one_probe_in_one_microsecond_are_two_points()
    {
        await using var server = await RecordingInflux.StartAsync();
        await using var rig = new CopyRig(server);
        await rig.OfferAsync(Enumerable.Range(0, 100).Select(value => Reading(0, value)));
        rig.Start();
        await rig.CopiedAsync(server);
        Assert.Equal(100, server.Points.Count);
        Assert.Equal(0, server.Changed);
    }

    [Fact]
    public async Task Two_changes_of_one_alarm_in_one_moment_are_two_points()
    {
        await using var server = await RecordingInflux.StartAsync();
        await using var rig = new CopyRig(server);
        await rig.KeepAsync(Change(0), Change(0, AlarmState.Unacknowledged, AlarmState.Acknowledged));
        rig.Start();
        await rig.CopiedAsync(server);
        Assert.Equal(2, server.Points.Count);
    }

    [Fact]
    public async Task Readings_filed_late_because_the_clock_was_set_back_arrive_too()
    {
        await using var server = await RecordingInflux.StartAsync();
        await using var rig = new CopyRig(server);
        await rig.OfferAsync(Reading(1000));
        rig.Start();
        await rig.CopiedAsync(server);
        await rig.OfferAsync(Reading(1), Reading(2), Reading(2000));
        await rig.CopiedAsync(server);
        Assert.Equal(4, server.Points.Count);
    }

    [Fact]
    public async Task A_restart_goes_on_where_it_was_and_sends_nothing_twice_after_an_orderly_stop()
    {
        await using var server = await RecordingInflux.StartAsync();
        await using var rig = new CopyRig(server);
        await rig.OfferAsync(Enumerable.Range(0, 50).Select(second => Reading(second)));
        rig.Start();
        await rig.CopiedAsync(server);
        await Eventually.TrueAsync(() => rig.Forwarder.State.Sent == 50, "the answer has come, and with it the place");
        await rig.StopAsync();
        Assert.NotNull(rig.Place());
        await rig.OfferAsync(Reading(50));
        rig.Start();
        await rig.CopiedAsync(server);
        Assert.Equal(51, server.Writes.Sum(write => write.Lines.Count));
    }

    [Fact]
    public async Task The_place_does_not_move_before_the_server_has_taken_the_points()
    {
        await using var server = await RecordingInflux.StartAsync();
        server.Answer([.. Enumerable.Repeat(RecordedReply.InternalError, 1000)]);
        await using var rig = new CopyRig(server);
        await rig.OfferAsync(Reading(0));
        rig.Start();
        await Eventually.TrueAsync(() => server.Writes.Count >= 3, "it tries again");
        await rig.StopAsync();
        Assert.Equal(ForwardPlace.Beginning, rig.Place());
        Assert.Empty(server.Points);
    }

    [Fact]
    public async Task A_bad_point_is_set_aside_with_its_reason_and_the_rest_goes_through()
    {
        await using var server = await RecordingInflux.StartAsync();
        server.IsBad = line => line.Contains("value=99", StringComparison.Ordinal);
        await using var rig = new CopyRig(server);
        await rig.OfferAsync(Enumerable.Range(0, 1000).Select(second => Reading(second, second == 617 ? 99 : 43.5)));
        rig.Start();
        await Eventually.TrueAsync(() => rig.Forwarder.State is { Refused: 1, Waiting: 0, Trouble: null }, "it is set aside");
        Assert.Equal(999, server.Points.Count);
        var aside = Assert.Single(rig.Refused());
        Assert.Contains("partial write: field type conflict", aside.Reason, StringComparison.Ordinal);
        Assert.Contains("value=99", aside.Line, StringComparison.Ordinal);
        await rig.StopAsync();
        rig.Start();
        await rig.OfferAsync(Reading(2000));
        await Eventually.TrueAsync(() => server.Points.Count == 1000, "the next goes through");
        Assert.Single(rig.Refused());
    }

    [Fact]
    public async Task A_moment_that_nanoseconds_cannot_say_is_set_aside_by_the_servers_word()
    {
        await using var server = await RecordingInflux.StartAsync();
        server.BadReply = RecordedReply.Malformed;
        server.IsBad = line => !long.TryParse(line[(line.LastIndexOf(' ') + 1)..], out _);
        await using var rig = new CopyRig(server);
        await rig.OfferAsync(Reading(0), Reading(TimeSpan.FromDays(100_000).TotalSeconds));
        rig.Start();
        await Eventually.TrueAsync(() => rig.Forwarder.State.Refused == 1, "it is set aside");
        Assert.Single(server.Points);
    }

    [Theory]
    [InlineData(401)]
    [InlineData(403)]
    [InlineData(404)]
    public async Task A_refusal_is_an_alarm_at_once_and_ends_when_it_is_mended(int status)
    {
        await using var server = await RecordingInflux.StartAsync();
        var reply = status == 401 ? RecordedReply.Unauthorized : status == 403 ? RecordedReply.Forbidden : RecordedReply.NoBucket;
        server.Answer([.. Enumerable.Repeat(reply, 5)]);
        await using var rig = new CopyRig(server);
        await rig.OfferAsync(Reading(0), Reading(1));
        Assert.False(Assert.Single(rig.Forwarder.Signals).Active);
        rig.Start();
        await Eventually.TrueAsync(() => rig.Forwarder.Signals.Single().Active == true, "the alarm");
        var signal = rig.Forwarder.Signals.Single();
        if (signal.Active == true)
        {
            Assert.Equal("server-behind", signal.Alarm.Value);
            Assert.Contains($"refuses the copy of the readings: it answered {status}", signal.Sentence, StringComparison.Ordinal);
            Assert.EndsWith("2 readings wait here.", signal.Sentence, StringComparison.Ordinal);
        }

        await rig.CopiedAsync(server);
        await Eventually.TrueAsync(() => rig.Forwarder.Signals.Single().Active == false, "the end of it");
        Assert.Empty(rig.Refused());
    }

    [Fact]
    public async Task A_server_that_is_away_is_an_alarm_only_after_a_while()
    {
        await using var server = await RecordingInflux.StartAsync();
        await server.StopAsync();
        await using var rig = new CopyRig(server, change: options => options with { AlarmAfter = TimeSpan.FromSeconds(2) });
        await rig.OfferAsync(Reading(0));
        rig.Start();
        await Eventually.TrueAsync(() => rig.Forwarder.State.Trouble is not null, "it is noticed");
        Assert.Null(rig.Forwarder.Signals.Single().Active);
        await Eventually.TrueAsync(() => rig.Forwarder.Signals.Single().Active == true, "the alarm");
        Assert.Contains("has taken nothing for", rig.Forwarder.Signals.Single().Sentence, StringComparison.Ordinal);
        await server.StartAgainAsync();
        await rig.CopiedAsync(server);
        await Eventually.TrueAsync(() => rig.Forwarder.Signals.Single().Active == false, "the end of it");
    }

    [Fact]
    public async Task The_wait_that_the_server_asks_for_is_kept()
    {
        await using var server = await RecordingInflux.StartAsync();
        server.Answer(RecordedReply.TooMany("3"));
        await using var rig = new CopyRig(server);
        await rig.OfferAsync(Reading(0));
        rig.Start();
        await Eventually.TrueAsync(() => !server.Writes.IsEmpty, "the first try");
        var first = System.Diagnostics.Stopwatch.StartNew();
        await rig.CopiedAsync(server);
        Assert.Equal(2, server.Writes.Count);
        Assert.True(first.Elapsed > TimeSpan.FromSeconds(2), $"waited {first.Elapsed}");
    }

    [Fact]
    public async Task A_new_server_gets_only_as_much_of_the_past_as_it_is_meant_to()
    {
        await using var server = await RecordingInflux.StartAsync();
        await using var rig = new CopyRig(server, change: options => options with { History = TimeSpan.FromDays(2) });
        var now = DateTimeOffset.UtcNow;
        var days = (now - Dusk).TotalDays;
        await rig.OfferAsync(Reading(TimeSpan.FromDays(days - 3).TotalSeconds), Reading(TimeSpan.FromDays(days - 1).TotalSeconds));
        await rig.KeepAsync(Change(TimeSpan.FromDays(days - 3).TotalSeconds), Change(TimeSpan.FromDays(days - 1).TotalSeconds));
        await rig.KeepAsync(Condition(TimeSpan.FromDays(days - 3).TotalSeconds), Condition(TimeSpan.FromDays(days - 1).TotalSeconds));
        rig.Start();
        await Eventually.TrueAsync(() => rig.Forwarder.State.Sent == 3, "the newer ones");
        await rig.OfferAsync(Reading(TimeSpan.FromDays(days - 2.5).TotalSeconds));
        await Eventually.TrueAsync(() => rig.Forwarder.State.Sent == 4, "one filed late since then");
        Assert.Equal(4, server.Points.Count);
    }

    [Fact]
    public async Task Set_aside_points_are_bounded()
    {
        await using var server = await RecordingInflux.StartAsync();
        await using var rig = new CopyRig(server);
        for (var round = 0; round < 3; round++)
        {
            await rig.Store.WriteAsync(
                work =>
                {
                    for (var number = 0; number < 500; number++)
                    {
                        ForwardTable.AddRefused(work, rig.Options.Server, new(Dusk, "it answered 422", $"p{round * 500 + number}"));
                    }

                    return 0;
                },
                TestContext.Current.CancellationToken);
        }

        Assert.Equal(ForwardTable.MostRefused, rig.Refused().Count);
        Assert.Equal("p1499", rig.Refused()[^1].Line);
    }
}
