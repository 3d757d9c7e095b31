using VatWatch.Pipeline.Supervision;

namespace VatWatch.Pipeline.Stages;

/// <summary>Runs the loop of a part that knows nothing of stages: a sender, a link, the store's writer.</summary>
/// <param name="name">A word for logs, health and metrics.</param>
/// <param name="limit">Longest time between two ticks of the pulse that the loop is handed.</param>
/// <param name="run">Runs until cancelled.</param>
internal sealed class LoopStage(string name, TimeSpan limit, Func<CancellationToken, Pulse, Task> run) : IStage
{
    public string Name => name;

    public Pulse Pulse { get; } = new(limit, TimeProvider.System);

    public Task RunAsync(CancellationToken cancel) => run(cancel, Pulse);
}
