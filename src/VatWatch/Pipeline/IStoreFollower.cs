using VatWatch.Alarms.Daemon;
using VatWatch.Pipeline.Supervision;

namespace VatWatch.Pipeline;

/// <summary>A stage that copies the store elsewhere and says how it is doing. It only reads what is on disk, so nothing ever waits for it.</summary>
public interface IStoreFollower : IStage
{
    /// <summary>What it says about itself now; must not wait.</summary>
    IEnumerable<DaemonSignal> Signals { get; }
}
