using VatWatch.Alarms.Acts;
using VatWatch.Daemon.Verbs.Terminal;
using VatWatch.Daemon.Web.Api;
using VatWatch.Store.Disk;

namespace VatWatch.Daemon.Verbs.Alarms;

/// <summary>Has the running daemon do something with an alarm, and prints what came of it.</summary>
internal static class AlarmActing
{
    public static async Task<int> RunAsync(AlarmRequest request, ConfiguredStore store, VerbConsole console, CancellationToken cancel)
    {
        if (!request.TryMake(out _, out var fault))
        {
            return console.Fail(ExitCode.WrongUsage, $"{fault}.");
        }

        if (!StoreBeside.IsHeld(store.Folder))
        {
            return console.Fail(ExitCode.Failure, $"no VatWatch runs on the data folder '{store.Folder}', so nothing was done; start it first, or name its folder with --data.");
        }

        using var daemon = new DaemonInterface(store.Folder);
        var isNote = request.Kind == AlarmActKind.Note;
        var (reply, refusal) = await daemon.PostAsync(
            isNote && request.Alarm is null ? $"/api/vats/{request.Vat}/note" : $"/api/vats/{request.Vat}/alarms/{request.Alarm}/{request.Kind.Word()}",
            new AlarmActRequest(request.By, request.Minutes, isNote ? null : request.Text, isNote ? request.Text : null),
            ApiJson.Default.AlarmActRequest,
            ApiJson.Default.AlarmActReply,
            cancel);
        if (reply is null)
        {
            return console.Fail(ExitCode.Failure, refusal!.Uncapitalized());
        }

        console.Out.WriteLine(reply.Sentence);
        return ExitCode.Success;
    }
}
