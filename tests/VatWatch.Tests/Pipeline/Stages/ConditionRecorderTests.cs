using VatWatch.Conditions;
using VatWatch.Conditions.Stored;
using VatWatch.Pipeline.Stages;
using VatWatch.Tests.Conditions;
using VatWatch.Tests.Store;

namespace VatWatch.Tests.Pipeline.Stages;

public sealed class ConditionRecorderTests
{
    [Fact]
    public async Task A_change_of_state_is_kept_at_once_and_other_changes_once_a_minute()
    {
        await using var rig = StoreRig.Start();
        var recorder = Recorder(rig);
        recorder.Enqueue(KeptCondition.At(0));
        recorder.Enqueue(KeptCondition.At(1, temperatureC: 36.5));
        recorder.Enqueue(KeptCondition.At(2, VatState.Ready));
        recorder.Enqueue(KeptCondition.At(30, VatState.Ready, 40));
        recorder.Enqueue(KeptCondition.At(61, VatState.Ready, 40));
        recorder.Enqueue(KeptCondition.At(62, VatState.Ready, 40));
        recorder.Enqueue(KeptCondition.At(130, VatState.Ready, 40.001));
        recorder.Enqueue(KeptCondition.At(200, VatState.Ready, 40.2));
        await recorder.WriteAsync(TestContext.Current.CancellationToken);
        Assert.Equal([(0.0, "warming"), (2, "ready"), (62, "ready"), (200, "ready")], Kept(rig));
        Assert.Equal(0, recorder.Dropped);
    }

    [Fact]
    public async Task While_the_disk_refuses_conditions_wait_and_are_written_once()
    {
        await using var rig = StoreRig.Start();
        var recorder = Recorder(rig);
        await rig.SqlAsync("CREATE TRIGGER refuse BEFORE INSERT ON condition BEGIN SELECT RAISE(FAIL, 'no'); END");
        recorder.Enqueue(KeptCondition.At(0));
        await Assert.ThrowsAnyAsync<Exception>(() => recorder.WriteAsync(TestContext.Current.CancellationToken));
        await rig.SqlAsync("DROP TRIGGER refuse");
        recorder.Enqueue(KeptCondition.At(70, VatState.Ready));
        await recorder.WriteAsync(TestContext.Current.CancellationToken);
        Assert.Equal([(0.0, "warming"), (70, "ready")], Kept(rig));
    }

    private static ConditionRecorder Recorder(StoreRig rig) => new(rig.Store, TimeSpan.FromDays(400));

    private static List<(double Seconds, string State)> Kept(StoreRig rig) =>
        rig.Read(reader => ConditionTable.After(reader, 0, 100).Select(one => ((one.Utc - StoreRig.Dusk).TotalSeconds, one.State)).ToList());
}
