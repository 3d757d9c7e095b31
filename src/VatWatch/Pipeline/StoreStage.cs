using VatWatch.Pipeline.Supervision;
using VatWatch.Store;

namespace VatWatch.Pipeline;

/// <summary>The store's one writer, as a stage.</summary>
internal sealed class StoreStage(WatchStore store) : IStage
{
    public string Name => "store";

    public Task RunAsync(CancellationToken cancel) => store.RunAsync(cancel);
}
