using VatWatch.Notifications.Watches;
using VatWatch.Pipeline.Supervision;

namespace VatWatch.Pipeline;

/// <summary>Listening for another VatWatch, as a stage.</summary>
internal sealed class FarWatchStage(FarWatch watch) : IStage
{
    public string Name => $"watch of {watch.Site}";

    public Task RunAsync(CancellationToken cancel) => watch.RunAsync(cancel);
}
