using System.Globalization;
using VatWatch.Store;
using VatWatch.Testing;
using VatWatch.Testing.Instruments;

namespace VatWatch.SystemTests.Faults;

/// <summary>SIGKILL of the daemon at random moments, also while it starts, with a vat that overheats and cools all the time.</summary>
[Trait("Campaign", "faults")]
public sealed class KillTests
{
    private const string Topics = "vatwatch/test-studio/";
    private static readonly int Kills = FaultFigures.Size(4, 60);

    /// <summary>The commit interval of 1 s and one commit; a busy test machine gets more.</summary>
    private static readonly double MostLostSeconds = FaultFigures.Size(4, 2);

    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(60);

    [Fact]
    public async Task Kills_at_random_moments_lose_nothing_that_was_told_and_no_reading_older_than_one_interval_and_a_commit()
    {
        using var studio = new Studio();
        await using var broker = await MosquittoBroker.StartAsync();
        await using var instrument = await PtyInstrument.AskedAsync();
        using var phone = await MosquittoSub.StartAsync(new(broker.Port), Topics + "#");
        Night.Configure(studio, instrument, broker.Port);
        await Night.CalmAsync(instrument);
        var random = new Random(100);
        var (oldest, lostAtAll) = (new List<double>(), 0);
        for (var kill = 0; kill < Kills; kill++)
        {
            var killed = await RunAndKillAsync(studio, broker, phone, instrument, kill, random);
            using var reader = StoreReader.OpenFolder(studio.Data);
            Assert.Empty(reader.Verify());
            using var record = new StoredRecord(studio.Data);
            var shown = new ShownNight(phone.Messages);
            Assert.Empty(shown.ChangesMissingFrom(record));
            Assert.Empty(shown.SentencesMissingFrom(record));

            // Those that earlier kills cost stay lost; the newest of them is no reading of this run.
            var missing = shown.MissingFrom(record);
            oldest.Add(missing.Skip(lostAtAll).Select(reading => (killed - DateTimeOffset.FromUnixTimeMilliseconds(reading.Milliseconds)).TotalSeconds).DefaultIfEmpty(0).Max());
            lostAtAll = missing.Count;
        }

        FaultFigures.Hold("kills, daemon", $"{Kills} kills", $"sound each time, nothing told lost, {new ShownNight(phone.Messages).Sentences.Count} sentences, {lostAtAll} readings lost", "nothing told lost, sound", true);
        FaultFigures.AtMost("kills, daemon", $"{Kills} kills", "oldest reading lost, median", oldest.Order().ElementAt(oldest.Count / 2), 1.2, "s");
        FaultFigures.AtMost("kills, daemon", $"{Kills} kills", "oldest reading lost, most", oldest.Max(), MostLostSeconds, "s");
        var (code, output, errors) = await VatWatchProcess.RunAsync(Patience, "verify", "--config", studio.Config);
        Assert.True(code == 0, output + errors);
    }

    /// <returns>When it was killed.</returns>
    private static async Task<DateTimeOffset> RunAndKillAsync(Studio studio, MosquittoBroker broker, MosquittoSub phone, PtyInstrument instrument, int kill, Random random)
    {
        await using var watch = VatWatchProcess.Start("run", "--config", studio.Config);
        if (kill % 5 < 4)
        {
            await Eventually.TrueAsync(() => watch.Output.Contains("is open", StringComparison.Ordinal), $"it reads after kill {kill}", Patience);
        }

        await Task.Delay(random.Next(1500), TestContext.Current.CancellationToken);
        await instrument.TellAsync($"set T {(kill % 2 == 0 ? 50 : 45)}");
        await Task.Delay(random.Next(2000), TestContext.Current.CancellationToken);
        Assert.False(watch.HasExited, watch.Errors);
        var killed = DateTimeOffset.UtcNow;
        await watch.KillAsync();

        // Behind everything that the broker had got from it.
        var mark = kill.ToString(CultureInfo.InvariantCulture);
        await MosquittoPub.SendAsync(new(broker.Port), Topics + "mark", mark);
        await phone.WaitForAsync(Topics + "mark", message => message.Payload == mark, Patience);
        return killed;
    }
}
