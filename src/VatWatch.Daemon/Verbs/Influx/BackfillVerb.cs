using System.CommandLine;
using VatWatch.Daemon.Verbs.Terminal;
using VatWatch.Influx;
using VatWatch.Pipeline.Configuration;
using VatWatch.Store;

namespace VatWatch.Daemon.Verbs.Influx;

/// <summary><c>vatwatch influx backfill</c>: sends history to the server again. Reads the store; the daemon may be running.</summary>
internal static class BackfillVerb
{
    public static Command Create(VerbConsole console)
    {
        var from = new Option<string>("--from") { Description = "Start, such as 2026-03-01T20:00Z or '2026-03-01 20:00' (time of the site).", HelpName = "TIME", Required = true };
        var to = new Option<string?>("--to") { Description = "End; default: now, or the last reading if that is later.", HelpName = "TIME" };
        var store = new ConfiguredStoreOptions(console);
        var command = new Command("backfill", "Send stored history to the server again, also while the daemon runs; what is there already stays as it is.") { from, to, store };
        command.SetAction((parsed, cancel) => RunAsync(parsed.GetValue(from)!, parsed.GetValue(to), store.Of(parsed), console, cancel));
        return command;
    }

    private static async Task<int> RunAsync(string from, string? to, ConfiguredStore store, VerbConsole console, CancellationToken cancel)
    {
        if (store.Configuration.Influx is not { } influx)
        {
            return console.Fail(ExitCode.BadConfiguration, $"{store.Configuration.File} has no influx section; wanted one with url, org, bucket and tokenFile.");
        }

        var (start, end) = TimeText.ReadSpan(from, to, store.Watch.Zone);
        if (end <= start)
        {
            return console.Fail(ExitCode.WrongUsage, $"--to is {end:u}, not after --from {start:u}; wanted a later time.");
        }

        try
        {
            using var reader = StoreReader.OpenFolder(store.Folder);
            return await SendAsync(reader, influx, store.Watch, start!.Value, end ?? DateTimeOffset.MaxValue, console, cancel);
        }
        catch (OperationCanceledException) when (cancel.IsCancellationRequested)
        {
            return console.Fail(ExitCode.Failure, "stopped; what was sent so far is with the server. Run it again to send the rest.");
        }
    }

    private static async Task<int> SendAsync(
        StoreReader reader, InfluxOptions influx, WatchConfiguration watch, DateTimeOffset from, DateTimeOffset to, VerbConsole console, CancellationToken cancel)
    {
        using var progress = new ProgressLine(console);
        var result = await new InfluxBackfill(influx, watch.Site, watch.Units, TimeProvider.System).RunAsync(
            reader, from, to, (sent, reached) => progress.Show($"{DisplayUnits.Count(sent, "point")} sent, up to {WallTime.Text(reached, watch.Zone)}"), cancel);
        progress.Clear();
        if (result.FirstRefused is { } first)
        {
            console.Error.WriteLine($"vatwatch: the server refuses {DisplayUnits.Count(result.Refused, "point")}; the first, {first.Reason}: {first.Line}");
        }

        if (result.Failure is { } failure)
        {
            var again = result.Reached.ToString("yyyy-MM-ddTHH:mm:ssZ");
            return console.Fail(ExitCode.Failure, $"{influx.Url.Host} took {DisplayUnits.Count(result.Sent, "point")} and then no more: {failure}. Go on with --from {again}.");
        }

        console.Out.WriteLine($"{influx.Url.Host}, bucket {influx.Bucket}: {DisplayUnits.Count(result.Sent, "point")} of site {watch.Site}.");
        return result.Refused == 0 ? ExitCode.Success : ExitCode.Failure;
    }
}

/// <summary><c>vatwatch influx</c>: what can be done about the copy on a server.</summary>
internal static class InfluxVerb
{
    public static Command Create(VerbConsole console) => new("influx", "The copy of the store on an InfluxDB server.") { BackfillVerb.Create(console) };
}
