using VatWatch.Testing;
using static VatWatch.Influx.Tests.CopyRig;

namespace VatWatch.Influx.Tests;

public sealed class InfluxBackfillTests
{
    [Fact]
    public async Task A_stretch_is_sent_again_and_nothing_else()
    {
        await using var server = await RecordingInflux.StartAsync();
        await using var rig = new CopyRig(server, change: options => options with { Batch = 10 });
        await rig.OfferAsync(Enumerable.Range(0, 100).Select(second => Reading(second)));
        await rig.KeepAsync(Change(5), Change(50));
        await rig.KeepAsync(Condition(49), Condition(50));
        List<long> told = [];
        var result = await RunAsync(rig, Dusk.AddSeconds(20), Dusk.AddSeconds(50), (sent, _) => told.Add(sent));
        Assert.Equal((31, 0, null), (result.Sent, result.Refused, result.Failure));
        Assert.Equal(31, server.Points.Count);
        Assert.Equal(30, server.CountOf("vat_reading", "hill-studio"));
        Assert.Equal(31, told[^1]);
    }

    [Fact]
    public async Task What_is_on_the_server_stays_as_it_is()
    {
        await using var server = await RecordingInflux.StartAsync();
        await using var rig = new CopyRig(server);
        await rig.OfferAsync(Enumerable.Range(0, 100).Select(second => Reading(second)));
        rig.Start();
        await rig.CopiedAsync(server);
        await RunAsync(rig, Dusk, DateTimeOffset.MaxValue);
        Assert.Equal(100, server.Points.Count);
        Assert.Equal(200, server.Writes.Sum(write => write.Lines.Count));
        Assert.Equal(0, server.Changed);
    }

    [Fact]
    public async Task A_refusal_ends_it_with_the_place_to_go_on_from()
    {
        await using var server = await RecordingInflux.StartAsync();
        await using var rig = new CopyRig(server, change: options => options with { Batch = 10 });
        await rig.OfferAsync(Enumerable.Range(0, 100).Select(second => Reading(second)));
        server.Answer(RecordedReply.Accepted, RecordedReply.Unavailable("0"), RecordedReply.Accepted, RecordedReply.NoBucket);
        var result = await RunAsync(rig, Dusk, DateTimeOffset.MaxValue);
        Assert.Equal("it answered 404, bucket not found", result.Failure);
        Assert.Equal(20, result.Sent);
        Assert.Equal(Dusk.AddSeconds(19), result.Reached);
    }

    [Fact]
    public async Task Refused_points_are_counted_and_the_first_is_told()
    {
        await using var server = await RecordingInflux.StartAsync();
        server.IsBad = line => line.Contains("value=7", StringComparison.Ordinal);
        await using var rig = new CopyRig(server);
        await rig.OfferAsync(Enumerable.Range(0, 10).Select(second => Reading(second, second)));
        var result = await RunAsync(rig, Dusk, DateTimeOffset.MaxValue);
        Assert.Equal((9, 1), (result.Sent, result.Refused));
        Assert.Contains("value=7", result.FirstRefused!.Value.Line, StringComparison.Ordinal);
    }

    private static async Task<BackfillResult> RunAsync(CopyRig rig, DateTimeOffset from, DateTimeOffset to, Action<long, DateTimeOffset>? progress = null)
    {
        using var reader = rig.Store.OpenReader();
        return await new InfluxBackfill(rig.Options, "hill-studio", DisplayUnits.Us, TimeProvider.System).RunAsync(reader, from, to, progress ?? ((_, _) => { }), TestContext.Current.CancellationToken);
    }
}
