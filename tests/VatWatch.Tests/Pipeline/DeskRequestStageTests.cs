using Microsoft.Extensions.Logging.Abstractions;
using VatWatch.Alarms;
using VatWatch.Pipeline;
using VatWatch.Store;
using VatWatch.Testing;
using VatWatch.Tests.Store;

namespace VatWatch.Tests.Pipeline;

/// <summary>From another process's request to the desk and back, on a real store.</summary>
public sealed class DeskRequestStageTests
{
    private static readonly AlarmRequest Shelve =
        new(AlarmActKind.Shelve, "madder-lane", "overheat", "Ada", "verb") { Minutes = 20, Text = "probe out" };

    [Fact]
    public async Task A_request_is_carried_out_once_and_answered()
    {
        await using var rig = StoreRig.Start();
        var desk = new RecordingDesk();
        var row = Add(rig, Shelve);
        Assert.Null(rig.Read(reader => DeskRequests.AnswerTo(reader, row)));

        await LookAsync(rig, desk);
        await LookAsync(rig, desk);

        Assert.Equal(new AlarmAct(AlarmActKind.Shelve, new("madder-lane"), new("overheat"), "Ada", "verb") { For = TimeSpan.FromMinutes(20), Text = "probe out" }, Assert.Single(desk.Taken));
        Assert.Equal((true, "overheat of madder-lane is shelved for 20 min."), rig.Read(reader => DeskRequests.AnswerTo(reader, row)));
    }

    [Fact]
    public async Task What_the_desk_finds_nothing_to_do_for_is_said()
    {
        await using var rig = StoreRig.Start();
        var row = Add(rig, Shelve with { Kind = AlarmActKind.Acknowledge });
        await LookAsync(rig, new RecordingDesk { Answer = _ => Task.FromResult(false) });
        Assert.Equal((false, "vat 'madder-lane' has no alarm 'overheat' that waits for an acknowledgement"), rig.Read(reader => DeskRequests.AnswerTo(reader, row)));
    }

    [Fact]
    public async Task A_disk_that_does_not_confirm_is_said()
    {
        await using var rig = StoreRig.Start();
        var row = Add(rig, Shelve);
        await LookAsync(rig, new RecordingDesk { Answer = _ => throw new TimeoutException() });
        Assert.Equal((false, "the disk did not confirm it; look at the alarm and ask again"), rig.Read(reader => DeskRequests.AnswerTo(reader, row)));
    }

    [Fact]
    public async Task One_that_is_not_whole_never_reaches_the_desk()
    {
        await using var rig = StoreRig.Start();
        var desk = new RecordingDesk();
        var bad = Add(rig, Shelve with { Minutes = 0 });
        await rig.SqlAsync("INSERT INTO desk_request (utc, act, vat, alarm, by) SELECT utc, 'silence', vat, alarm, by FROM desk_request");
        await LookAsync(rig, desk);
        Assert.Empty(desk.Taken);
        Assert.Equal((false, "the time on the shelf is 0; wanted 1 to 1440 minutes"), rig.Read(reader => DeskRequests.AnswerTo(reader, bad)));
        Assert.Contains("does not know that act", rig.Read(reader => DeskRequests.AnswerTo(reader, bad + 1))!.Value.Sentence, StringComparison.Ordinal);
    }

    [Fact]
    public async Task An_old_request_of_a_verb_that_is_long_gone_silences_nothing()
    {
        await using var rig = StoreRig.Start();
        var desk = new RecordingDesk();
        var row = Add(rig, Shelve, age: TimeSpan.FromMinutes(1));
        await LookAsync(rig, desk);
        Assert.Empty(desk.Taken);
        Assert.Contains("too long ago", rig.Read(reader => DeskRequests.AnswerTo(reader, row))!.Value.Sentence, StringComparison.Ordinal);
    }

    [Fact]
    public async Task One_that_was_taken_back_is_not_carried_out()
    {
        await using var rig = StoreRig.Start();
        var desk = new RecordingDesk();
        var row = Add(rig, Shelve);
        Assert.True(StoreBeside.Write(rig.Folder, work => DeskRequests.Withdraw(work, row)));
        await LookAsync(rig, desk);
        Assert.Empty(desk.Taken);
        Assert.False(StoreBeside.Write(rig.Folder, work => DeskRequests.Withdraw(work, row)));
    }

    [Fact]
    public async Task Answered_requests_do_not_pile_up()
    {
        await using var rig = StoreRig.Start();
        var desk = new RecordingDesk();
        for (var i = 0; i < 250; i++)
        {
            Add(rig, Shelve);
        }

        for (var look = 0; look < 13; look++)
        {
            await LookAsync(rig, desk);
        }

        Assert.Equal(250, desk.Taken.Count);
        Assert.Equal(200, rig.Read(reader => reader.Sql.Whole("SELECT count(*) FROM desk_request")));
    }

    private static long Add(StoreRig rig, AlarmRequest request, TimeSpan age = default) =>
        StoreBeside.Write(rig.Folder, work => DeskRequests.Add(work, request, DateTimeOffset.UtcNow - age));

    private static Task LookAsync(StoreRig rig, RecordingDesk desk) =>
        new DeskRequestStage(rig.Store, desk, TimeProvider.System, NullLogger<DeskRequestStage>.Instance).LookAsync(TestContext.Current.CancellationToken);
}
