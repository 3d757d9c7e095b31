using System.Diagnostics;
using VatWatch.Testing;
using VatWatch.Testing.Instruments;

namespace VatWatch.SystemTests.Faults;

/// <summary>Brokers that are away, frozen, broken and hostile, one after the other: the vat is watched on, memory stays, and what was to be told comes in order once.</summary>
[Trait("Campaign", "faults")]
public sealed class BrokerTests
{
    private const string Topics = "vatwatch/test-studio/";

    /// <summary>What may be taken on top while a broker misbehaves.</summary>
    private const double MostMegabytes = 80;

    private static readonly TimeSpan Hostile = FaultFigures.Size(TimeSpan.FromSeconds(1.5), TimeSpan.FromSeconds(20));

    /// <summary>From the instrument's change to the alarm on the page, over a serial line asked every 0.1 s; a busy test machine gets more.</summary>
    private static readonly double MostSecondsToRaise = FaultFigures.Size(10, 2);

    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(90);

    [Fact]
    public async Task Whatever_the_broker_does_alarms_are_raised_at_once_and_told_in_order_when_it_is_itself_again()
    {
        using var studio = new Studio();
        await using var real = await MosquittoBroker.StartAsync(new() { Persistent = true });
        using var broker = new HostileBroker(real.Port);
        await using var instrument = await PtyInstrument.AskedAsync();
        using var phone = await MosquittoSub.StartAsync(new(real.Port), Topics + "+/notification", session: "phone");
        Night.Configure(studio, instrument, broker.Port);
        await Night.CalmAsync(instrument);
        await using var watch = VatWatchProcess.Start("run", "--config", studio.Config);
        using var page = new HttpClient { BaseAddress = new(studio.Url), Timeout = Patience };
        await Eventually.TrueAsync(() => real.Log.Contains("vatwatch-test-studio", StringComparison.Ordinal), "the daemon has connected", Patience);
        await Task.Delay(TimeSpan.FromSeconds(2), TestContext.Current.CancellationToken);
        var (before, most, slowest) = (ProcessLook.Of(watch.Id).ResidentMegabytes, 0.0, TimeSpan.Zero);

        foreach (var mode in Enum.GetValues<Hostility>().Where(mode => mode != Hostility.None))
        {
            broker.Become(mode);
            await LiveThroughAsync();
        }

        broker.Become(Hostility.None);
        await ComesThroughAsync("a hostile broker");
        real.Pause();
        await LiveThroughAsync();
        real.Resume();
        await ComesThroughAsync("a frozen broker");
        await real.StopAsync();
        await LiveThroughAsync();
        await real.StartAgainAsync();
        await ComesThroughAsync("a stopped broker");

        Assert.Equal(0, await watch.StopAsync(Patience));
        Assert.DoesNotContain("   at ", watch.Output + watch.Errors, StringComparison.Ordinal);
        using var record = new StoredRecord(studio.Data);
        var told = phone.Messages.Where(message => message.Topic.EndsWith("/notification", StringComparison.Ordinal)).Select(message => message.Properties).ToList();
        var waited = record.Query("SELECT id FROM outbox ORDER BY id", row => $"notification-id:{row.GetInt64(0)}");
        Assert.Equal(waited, told.Distinct());
        var size = $"{Enum.GetValues<Hostility>().Length + 1} ways of {Hostile.TotalSeconds:0.#} s";
        FaultFigures.Hold("broker", size, $"{waited.Count} sentences, all told, in order; {broker.Connections} connections", "all told, in order", waited.Count > 4);
        FaultFigures.AtMost("broker", size, "sentences told again after a break", told.Count - waited.Count, 2);
        FaultFigures.AtMost("broker", size, "slowest alarm on the page", slowest.TotalSeconds, MostSecondsToRaise, "s");
        FaultFigures.AtMost("broker", size, "memory on top", most - before, MostMegabytes, "MB");

        async Task LiveThroughAsync()
        {
            var began = Stopwatch.StartNew();
            do
            {
                foreach (var (degrees, isRaised) in new[] { (50, true), (45, false) })
                {
                    var changed = Stopwatch.StartNew();
                    await instrument.TellAsync($"set T {degrees}");
                    while (await IsRaisedAsync() != isRaised)
                    {
                        Assert.True(changed.Elapsed < Patience, $"the page shows {degrees} °C");
                        await Task.Delay(20, TestContext.Current.CancellationToken);
                    }

                    slowest = changed.Elapsed > slowest ? changed.Elapsed : slowest;
                    most = Math.Max(most, ProcessLook.Of(watch.Id).ResidentMegabytes);
                }

                await Task.Delay(FaultFigures.Size(500, 5000), TestContext.Current.CancellationToken);
            }
            while (began.Elapsed < Hostile);
        }

        async Task<bool> IsRaisedAsync() => (await page.GetStringAsync("/api/alarms", TestContext.Current.CancellationToken)) is var alarms
            && alarms.Contains("\"overheat\"", StringComparison.Ordinal) && alarms.Split("\"overheat\"")[1].Split('}')[0].Contains("\"unacknowledged\"", StringComparison.Ordinal);

        async Task ComesThroughAsync(string what) => await Eventually.TrueAsync(
            () =>
            {
                using var store = new StoredRecord(studio.Data);
                return store.Query("SELECT count(*) FROM outbox WHERE delivered IS NULL", row => row.GetInt64(0))[0] == 0;
            },
            $"everything is told after {what}", Patience);
    }
}
