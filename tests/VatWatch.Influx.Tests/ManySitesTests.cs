using VatWatch.Testing;
using static VatWatch.Influx.Tests.CopyRig;

namespace VatWatch.Influx.Tests;

/// <summary>Two stores, each with its forwarder, and one server: no point lost, none doubled.</summary>
public sealed class ManySitesTests
{
    [Fact]
    public async Task Two_sites_with_vats_of_the_same_name_are_told_apart()
    {
        await using var server = await RecordingInflux.StartAsync();
        await using var hill = new CopyRig(server, "hill-studio");
        await using var river = new CopyRig(server, "river-yard");
        await hill.OfferAsync(Enumerable.Range(0, 300).Select(second => Reading(second, 40)));
        await river.OfferAsync(Enumerable.Range(0, 200).Select(second => Reading(second, 60)));
        hill.Start();
        river.Start();
        await hill.CopiedAsync(server);
        await river.CopiedAsync(server);
        Assert.Equal((300, 200), (server.CountOf("vat_reading", "hill-studio"), server.CountOf("vat_reading", "river-yard")));
        Assert.Equal(0, server.Changed);
    }

    [Fact]
    public async Task A_day_without_the_server_is_made_up_for_in_full()
    {
        const int day = 24 * 60 * 60;
        await using var server = await RecordingInflux.StartAsync();
        await using var hill = new CopyRig(server, "hill-studio");
        await using var river = new CopyRig(server, "river-yard");
        hill.Start();
        river.Start();
        await hill.OfferAsync(Reading(0));
        await river.OfferAsync(Reading(0));
        await hill.CopiedAsync(server);
        await river.CopiedAsync(server);
        await server.StopAsync();
        await hill.OfferAsync(Enumerable.Range(1, day / 5).Select(step => Reading(5 * step)));
        await river.OfferAsync(Enumerable.Range(1, day / 10).Select(step => Reading(10 * step)));
        await hill.KeepAsync(Change(100), Change(200, Alarms.AlarmState.Unacknowledged, Alarms.AlarmState.Normal));
        await Eventually.TrueAsync(() => hill.Forwarder.State.Trouble is not null && hill.Forwarder.State.Waiting > 0, "hill waits");
        await river.StopAsync();
        river.Start();
        await server.StartAgainAsync();
        await hill.CopiedAsync(server, 60);
        await river.CopiedAsync(server, 60);
        Assert.Equal(day / 5 + 1 + 2 + day / 10 + 1, server.Points.Count);
        Assert.Equal(0, server.Changed);
    }

    [Fact]
    public async Task A_server_that_fails_at_random_loses_nothing_and_doubles_nothing()
    {
        await using var server = await RecordingInflux.StartAsync();
        await using var hill = new CopyRig(server, "hill-studio", options => options with { Batch = 100 });
        await using var river = new CopyRig(server, "river-yard", options => options with { Batch = 100 });
        var random = new Random(7);
        hill.Start();
        river.Start();
        for (var round = 0; round < 20; round++)
        {
            server.Answer([.. Enumerable.Range(0, random.Next(3)).Select(_ => Faults[random.Next(Faults.Length)])]);
            server.MostPoints = random.Next(20, 200);
            var start = 100 * round;
            await hill.OfferAsync(Enumerable.Range(start, 100).Select(second => Reading(second)));
            await river.OfferAsync(Enumerable.Range(start, 100).Select(second => Reading(second / 2, second)));
            if (random.Next(2) == 0)
            {
                var rig = random.Next(2) == 0 ? hill : river;
                await rig.StopAsync();
                rig.Start();
            }
        }

        await hill.CopiedAsync(server, 60);
        await river.CopiedAsync(server, 60);
        Assert.Equal(4000, server.Points.Count);
        Assert.Equal(0, server.Changed);
        Assert.Empty(hill.Refused().Concat(river.Refused()));
    }

    private static readonly RecordedReply[] Faults =
    [
        RecordedReply.Accepted, RecordedReply.InternalError, RecordedReply.Unavailable("0"), RecordedReply.TooMany(null), RecordedReply.BadGateway, RecordedReply.Unauthorized,
    ];
}
