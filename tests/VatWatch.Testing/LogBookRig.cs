using Microsoft.Extensions.Logging.Abstractions;
using VatWatch.Pipeline;
using VatWatch.Store;

namespace VatWatch.Testing;

/// <summary>A store in a folder of its own with its writer running, and the desk where the log book is written; everything is removed at the end.</summary>
public sealed class LogBookRig : IAsyncDisposable
{
    private readonly CancellationTokenSource _stop = new();
    private readonly string _folder = Directory.CreateTempSubdirectory("log-book-test-").FullName;
    private readonly Task _running;

    /// <summary>Liquor that each vat is configured with, L.</summary>
    public const double VatLitres = 150;

    /// <summary>Opens the store.</summary>
    /// <param name="vats">Vats that may be written about.</param>
    /// <param name="changed">Hears of every change.</param>
    /// <param name="clock">The vat's clock.</param>
    public LogBookRig(IReadOnlySet<VatId> vats, Action<SessionChange> changed, WatchClock clock)
    {
        Store = WatchStore.Open(_folder, new StoreOptions { KeepReadings = TimeSpan.FromDays(100_000) }, TimeProvider.System, NullLogger<WatchStore>.Instance);
        _running = Store.RunAsync(_stop.Token);
        Plans = new PlanService(Store, vats, clock, clock.Zone, NullLogger<PlanService>.Instance);
        Desk = new SessionService(Store, vats.ToDictionary(vat => vat, _ => VatLitres), (_, _) => { }, changed, clock, clock.Zone, NullLogger<SessionService>.Instance);
    }

    /// <summary>The store.</summary>
    public WatchStore Store { get; }

    /// <summary>Where plans are kept.</summary>
    public PlanService Plans { get; }

    /// <summary>The desk.</summary>
    public SessionService Desk { get; }

    /// <summary>Closes the store, so that nothing is written any more; harmless when that has been done.</summary>
    public async Task CloseAsync()
    {
        await _stop.CancelAsync();
        await _running.WaitAsync(TimeSpan.FromSeconds(20));
        await Store.DisposeAsync();
    }

    public async ValueTask DisposeAsync()
    {
        await CloseAsync();
        _stop.Dispose();
        Directory.Delete(_folder, recursive: true);
    }
}
