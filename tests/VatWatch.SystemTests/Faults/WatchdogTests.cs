using System.Diagnostics;
using VatWatch.Testing;

namespace VatWatch.SystemTests.Faults;

/// <summary>The daemon under a service manager's watchdog: frozen or killed, it is started again and the vat is watched on.</summary>
[Trait("Campaign", "faults")]
public sealed class WatchdogTests
{
    private static readonly TimeSpan Watchdog = TimeSpan.FromSeconds(2);

    [Fact]
    public async Task A_frozen_daemon_is_started_again_and_nothing_kept_is_lost()
    {
        var times = FaultFigures.Size(1, 8);
        using var studio = new Studio();
        studio.WriteConfig(
            """ "sound": { "kind": "simulation", "start": "45 °C" } """,
            Studio.Vat("one", """{ "id": "one-t", "measures": "temperature", "bus": "sound", "driver": "simulated", "every": "200 ms" }"""));
        var back = new List<double>();
        await using (var manager = new ServiceManagerStandIn(studio, Watchdog))
        {
            await Eventually.TrueAsync(() => manager.Ready == 1, "it is ready", WatchedDaemon.Patience);
            for (var time = 1; time <= times; time++)
            {
                // It is left alone while it feeds the watchdog.
                await Task.Delay(Watchdog * 1.5, TestContext.Current.CancellationToken);
                Assert.Equal(time - 1, manager.Unfed);

                UnixSignal.Send(manager.Process.Id, UnixSignal.Stop);
                var frozen = Stopwatch.StartNew();
                await Eventually.TrueAsync(() => manager.Ready == time + 1, "it is ready again", WatchedDaemon.Patience);
                back.Add(frozen.Elapsed.TotalSeconds);
                Assert.Equal(time, manager.Unfed);
            }

            await Task.Delay(TimeSpan.FromSeconds(1.5), TestContext.Current.CancellationToken);
        }

        FaultFigures.AtMost("frozen daemon, watchdog of 2 s", $"{times} times", "watching again within", back.Max(), 15, "s");
        var runs = StoreFile.Count(studio.Data, "run");
        FaultFigures.Hold("frozen daemon, watchdog of 2 s", $"{times} times", $"{runs} runs in the store", $"{times + 1} runs", runs == times + 1);
        var (code, output, errors) = await VatWatchProcess.RunAsync(WatchedDaemon.Patience, "verify", "--config", studio.Config);
        FaultFigures.Hold("frozen daemon, watchdog of 2 s", $"{times} times", $"verify says {code}", "0", code == 0);
        Assert.DoesNotContain("   at ", output + errors, StringComparison.Ordinal);
    }
}
