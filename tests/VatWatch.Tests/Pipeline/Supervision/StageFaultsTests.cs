using VatWatch.Alarms;
using VatWatch.Pipeline.Supervision;
using VatWatch.Testing;

namespace VatWatch.Tests.Pipeline.Supervision;

/// <summary>
/// Each stage of the real line in turn throws at once, returns quietly, goes round without coming to an end, or ignores that it is to stop. The others
/// do their work, the fault is named, the stage is started again until the daemon gives up, and stopping comes to an end.
/// </summary>
[Trait("Campaign", "faults")]
public sealed class StageFaultsTests
{
    private static readonly string[] All = ["store", "journal", "mqtt", "contact mqtt", "calibrations", "learning", "plans", "conditions", "watch", "clock", "bus pi", "bus sound"];

    /// <summary>Stages without which no reading of the simulated vat reaches the live picture, the disk, or its alarm anybody.</summary>
    private static readonly string[] OfReadings = ["watch", "bus sound"];
    private static readonly string[] OfTheDisk = ["store", .. OfReadings];
    private static readonly string[] OfAlarms = ["journal", .. OfReadings];

    public static TheoryData<string> Stages => [.. All];

    [Fact]
    public async Task The_names_tried_here_are_those_of_the_real_line()
    {
        await using var line = new LineRig();
        Assert.Equal(All, line.Stages.Select(stage => stage.Name));
    }

    [Theory]
    [MemberData(nameof(Stages))]
    public async Task A_stage_that_throws_and_then_returns_quietly_is_started_again_while_the_others_work(string name)
    {
        await using var line = new LineRig(simulatedC: 55);
        var failing = new FailingStage(name);
        await line.StartAsync(failing, new StageOptions { FirstWait = TimeSpan.FromMilliseconds(20), LongestWait = TimeSpan.FromMilliseconds(100), GiveUpAfter = 1000 });
        await HoldWorkAsync(line, name);
        await Eventually.TrueAsync(() => failing.Starts >= 4, "it is started again and again");
        var health = line.Supervisor.Health.Single(stage => stage.Stage == name);
        FaultFigures.Hold("stages", $"{name} throws, returns", $"the others work, started again {health.Restarts} times", "at least 3 times", health.Restarts >= 3);
        Assert.Contains(health.LastFault, new[] { "it ended by itself", "IOException: made to fail" });
        Assert.Empty(line.Supervisor.Stuck);
    }

    [Theory]
    [MemberData(nameof(Stages))]
    public async Task A_stage_that_goes_round_for_ever_and_ignores_its_stop_is_named_and_left_behind(string name)
    {
        var line = new LineRig(simulatedC: 55);
        using var looping = new LoopingStage(name);
        await line.StartAsync(looping);
        await HoldWorkAsync(line, name);
        await Eventually.TrueAsync(() => line.Supervisor.Stuck.Contains(name), "it is named as stuck");
        var stuck = line.Supervisor.Stuck;
        FaultFigures.Hold("stages", $"{name} loops, ignores its stop", $"the others work, stuck: {string.Join(", ", stuck)}", name, stuck.SequenceEqual([name]));

        // Stopping leaves it behind after five seconds; in the small size that is waited for once.
        if (!FaultFigures.IsFull && name != "clock")
        {
            looping.Dispose();
        }

        await line.DisposeAsync().AsTask().WaitAsync(TimeSpan.FromSeconds(30), TestContext.Current.CancellationToken);
    }

    [Fact]
    public async Task A_stage_that_fails_eight_times_in_a_row_ends_the_daemon_with_a_failure()
    {
        await using var line = new LineRig();
        await line.StartAsync(new FailingStage("learning"), new StageOptions { FirstWait = TimeSpan.FromMilliseconds(5), LongestWait = TimeSpan.FromMilliseconds(20) });
        await Eventually.TrueAsync(() => line.Supervisor.HasGivenUp, "it gives up");
        FaultFigures.Hold("stages", "learning fails 8 times in a row", $"stopping: {line.IsStopping}", "stopping: True", line.IsStopping);
    }

    /// <summary>What does not need the stage goes on: readings to the live picture and to the disk, the alarm to the picture that follows it.</summary>
    private static async Task HoldWorkAsync(LineRig line, string name)
    {
        if (!OfReadings.Contains(name))
        {
            await Eventually.TrueAsync(() => line.Newest("simulated") is { Quality: Quality.Good }, $"readings are shown without {name}");
        }

        if (!OfAlarms.Contains(name))
        {
            await Eventually.TrueAsync(() => line.StateOf("simulated", "overheat") == AlarmState.Unacknowledged, $"the alarm is told without {name}");
        }

        if (!OfTheDisk.Contains(name))
        {
            await Eventually.TrueAsync(() => line.Kept("simulated").Count > 3, $"readings are kept without {name}");
        }
    }

    /// <summary>Throws at every other start, and returns at those between.</summary>
    private sealed class FailingStage(string name) : IStage
    {
        private int _starts;

        public string Name => name;

        public Pulse Pulse { get; } = new(TimeSpan.FromSeconds(30), TimeProvider.System);

        public int Starts => Volatile.Read(ref _starts);

        public Task RunAsync(CancellationToken cancel) =>
            Interlocked.Increment(ref _starts) % 2 == 1 ? throw new IOException("made to fail") : Task.CompletedTask;
    }

    /// <summary>Goes round on a thread and looks at nothing until disposed.</summary>
    private sealed class LoopingStage(string name) : IStage, IDisposable
    {
        private volatile bool _end;

        public string Name => name;

        public Pulse Pulse { get; } = new(TimeSpan.FromMilliseconds(300), TimeProvider.System);

        public Task RunAsync(CancellationToken cancel)
        {
            Pulse.Tick();
            return Task.Run(() => SpinWait.SpinUntil(() => _end), CancellationToken.None);
        }

        public void Dispose() => _end = true;
    }
}
