using Microsoft.Extensions.Logging.Abstractions;
using VatWatch.Conditions;
using VatWatch.Pipeline.Stages;
using VatWatch.Tests.Conditions;
using VatWatch.Tests.Store;

namespace VatWatch.Tests.Pipeline.Stages;

public sealed class ConditionStageTests
{
    [Fact]
    public async Task A_change_of_state_is_kept_at_once_and_other_changes_once_a_minute()
    {
        await using var rig = StoreRig.Start();
        var stage = NewStage(rig);
        stage.Enqueue(KeptCondition.At(0));
        stage.Enqueue(KeptCondition.At(1, temperatureC: 36.5));
        stage.Enqueue(KeptCondition.At(2, VatState.Ready));
        stage.Enqueue(KeptCondition.At(30, VatState.Ready, 40));
        stage.Enqueue(KeptCondition.At(61, VatState.Ready, 40));
        stage.Enqueue(KeptCondition.At(62, VatState.Ready, 40));
        stage.Enqueue(KeptCondition.At(130, VatState.Ready, 40.001));
        stage.Enqueue(KeptCondition.At(200, VatState.Ready, 40.2));
        await KeepAsync(stage);
        Assert.Equal([(0.0, "warming"), (2, "ready"), (62, "ready"), (200, "ready")], Kept(rig));
        Assert.Equal(0, stage.Dropped);
    }

    [Fact]
    public async Task What_waits_is_written_when_the_stage_is_stopped()
    {
        await using var rig = StoreRig.Start();
        var stage = NewStage(rig);
        stage.Enqueue(KeptCondition.At(0));
        await KeepAsync(stage);
        Assert.Single(Kept(rig));
    }

    [Fact]
    public async Task While_the_disk_refuses_conditions_wait_and_are_written_once()
    {
        await using var rig = StoreRig.Start();
        var stage = NewStage(rig);
        await rig.SqlAsync("CREATE TRIGGER refuse BEFORE INSERT ON condition BEGIN SELECT RAISE(FAIL, 'no'); END");
        stage.Enqueue(KeptCondition.At(0));
        await Assert.ThrowsAnyAsync<Exception>(() => KeepAsync(stage));
        await rig.SqlAsync("DROP TRIGGER refuse");
        stage.Enqueue(KeptCondition.At(70, VatState.Ready));
        await KeepAsync(stage);
        Assert.Equal([(0.0, "warming"), (70, "ready")], Kept(rig));
    }

    private static ConditionStage NewStage(StoreRig rig) =>
        new(rig.Store, TimeSpan.FromDays(400), TimeProvider.System, NullLogger<ConditionStage>.Instance);

    /// <summary>Runs the stage just long enough to be stopped.</summary>
    private static async Task KeepAsync(ConditionStage stage)
    {
        using var stop = new CancellationTokenSource();
        var running = stage.RunAsync(stop.Token);
        await stop.CancelAsync();
        try
        {
            await running.WaitAsync(TimeSpan.FromSeconds(20), TestContext.Current.CancellationToken);
        }
        catch (OperationCanceledException)
        {
            // As it is told to.
        }
    }

    private static List<(double Seconds, string State)> Kept(StoreRig rig) =>
        rig.Read(reader => ConditionTable.After(reader, 0, 100).Select(one => ((one.Utc - StoreRig.Dusk).TotalSeconds, one.State)).ToList());
}
