using Microsoft.Extensions.Logging;
using VatWatch.Alarms;
using VatWatch.Pipeline.Supervision;
using VatWatch.Store;

namespace VatWatch.Pipeline;

/// <summary>
/// Carries out what the verb <c>alarms</c>, another process on the same store, asks to be done with alarms, and writes the answer back for it.
/// </summary>
internal sealed class DeskRequestStage(WatchStore store, IAlarmActions desk, TimeProvider time, ILogger<DeskRequestStage> log) : IStage
{
    /// <summary>A person waits at the keyboard; looking costs one query of an index that is empty nearly always.</summary>
    private static readonly TimeSpan Period = TimeSpan.FromSeconds(1);

    /// <summary>Whoever asked has given up by then, and an old acknowledgement must not silence a new alarm.</summary>
    private static readonly TimeSpan TooOld = TimeSpan.FromSeconds(30);

    /// <summary>Taken at one look; the rest waits for the next.</summary>
    private const int AtOnce = 20;

    private bool _isUnread;

    public string Name => "requests";

    /// <summary>Long, because it waits for the disk.</summary>
    public Pulse Pulse { get; } = new(TimeSpan.FromMinutes(5), time);

    public async Task RunAsync(CancellationToken cancel)
    {
        using var timer = new PeriodicTimer(Period, time);
        while (await timer.WaitForNextTickAsync(cancel))
        {
            Pulse.Tick();
            await LookAsync(cancel);
        }
    }

    /// <summary>Carries out and answers what waits; what cannot be read or answered now is tried at the next look.</summary>
    public async Task LookAsync(CancellationToken cancel)
    {
        try
        {
            foreach (var (row, utc, request) in Waiting())
            {
                var (done, sentence) = await CarryOutAsync(utc, request, cancel);
                await store.WriteAsync(
                    work =>
                    {
                        DeskRequests.Answer(work, row, done, sentence);
                        return row;
                    },
                    cancel);
            }

            _isUnread = false;
        }
        catch (StoreUnavailableException caught)
        {
            if (!_isUnread)
            {
                Log.RequestsUnread(log, caught.Message);
            }

            _isUnread = true;
        }
    }

    private IReadOnlyList<(long Row, DateTimeOffset Utc, AlarmRequest? Request)> Waiting()
    {
        using var reader = store.OpenReader();
        return DeskRequests.Waiting(reader, AtOnce);
    }

    private async Task<(bool Done, string Sentence)> CarryOutAsync(DateTimeOffset utc, AlarmRequest? request, CancellationToken cancel)
    {
        if ((time.GetUtcNow() - utc).Duration() > TooOld)
        {
            return (false, "it was asked too long ago; look at the alarm and ask again");
        }

        if (request is null)
        {
            return (false, "this daemon does not know that act; use the program of the same version");
        }

        if (!request.TryMake(out var act, out var fault))
        {
            return (false, fault);
        }

        try
        {
            return await desk.CarryOutAsync(act, cancel) is { } change ? (true, AlarmActText.Done(act.Kind, change)) : (false, AlarmActText.NothingDone(act));
        }
        catch (Exception late) when (late is TimeoutException or StoreUnavailableException)
        {
            return (false, "the disk did not confirm it; look at the alarm and ask again");
        }
    }
}
