using VatWatch.Pipeline.Supervision;
using VatWatch.Store;

namespace VatWatch.Pipeline;

/// <summary>The store's one writer, as a stage.</summary>
internal sealed class StoreStage(WatchStore store) : IStage
{
    public string Name => "store";

    /// <summary>Long, because alarms go out while a disk does not answer, and a new start would not mend it.</summary>
    public Pulse Pulse { get; } = new(TimeSpan.FromMinutes(5), TimeProvider.System);

    public Task RunAsync(CancellationToken cancel) => store.RunAsync(cancel, Pulse);
}
