using VatWatch.Alarms;
using VatWatch.Daemon.Wiring;
using VatWatch.Store;

namespace VatWatch.Daemon.Verbs.Alarms;

/// <summary>Asks the running daemon, through its store, to do something with an alarm, and waits for the answer.</summary>
internal static class AlarmAsking
{
    /// <summary>The daemon looks every second and waits up to 10 s for its disk.</summary>
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(15);
    private static readonly TimeSpan Pause = TimeSpan.FromMilliseconds(200);

    public static async Task<int> RunAsync(AlarmRequest request, string? config, string? data, VerbConsole console, CancellationToken cancel)
    {
        if (DaemonConfiguration.Load(config, console) is not { } configuration)
        {
            return ExitCode.BadConfiguration;
        }

        if (!request.TryMake(out _, out var fault))
        {
            return console.Fail(ExitCode.WrongUsage, $"{fault}.");
        }

        var folder = data ?? configuration.Watch.DataFolder;
        if (!StoreBeside.IsHeld(folder))
        {
            return console.Fail(ExitCode.Failure, $"no VatWatch runs on the data folder '{folder}', so nothing was done; start it first, or name its folder with --data.");
        }

        var row = StoreBeside.Write(folder, work => DeskRequests.Add(work, request, TimeProvider.System.GetUtcNow()));
        return await AnswerAsync(folder, row, cancel) switch
        {
            ({ } sentence, true) => Say(console, sentence),
            ({ } sentence, false) => console.Fail(ExitCode.Failure, $"nothing was done: {sentence}."),
            _ => console.Fail(ExitCode.Failure, $"the VatWatch that uses '{folder}' has not answered within {Patience.TotalSeconds} s; the request was taken back; look at the alarm and at the daemon's log."),
        };
    }

    /// <summary>The answer; no sentence when none came and the request was taken back.</summary>
    private static async Task<(string? Sentence, bool Done)> AnswerAsync(string folder, long row, CancellationToken cancel)
    {
        var began = TimeProvider.System.GetTimestamp();
        using var reader = StoreReader.OpenFolder(folder);
        try
        {
            while (TimeProvider.System.GetElapsedTime(began) < Patience)
            {
                if (DeskRequests.AnswerTo(reader, row) is { } answer)
                {
                    return (answer.Sentence, answer.Done);
                }

                await Task.Delay(Pause, TimeProvider.System, cancel);
            }
        }
        catch (OperationCanceledException)
        {
            // Somebody pressed Ctrl-C: what nobody has answered is taken back below.
        }

        return StoreBeside.Write(folder, work => DeskRequests.Withdraw(work, row)) || DeskRequests.AnswerTo(reader, row) is not { } late
            ? (null, false)
            : (late.Sentence, late.Done);
    }

    private static int Say(VerbConsole console, string sentence)
    {
        console.Out.WriteLine(sentence);
        return ExitCode.Success;
    }
}
