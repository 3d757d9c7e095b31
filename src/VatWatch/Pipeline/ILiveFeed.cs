using VatWatch.Alarms;
using VatWatch.Conditions;
using VatWatch.Measurements;

namespace VatWatch.Pipeline;

/// <summary>The newest picture of every vat, and the stream of what changes in it. Reads never wait. Thread safe.</summary>
public interface ILiveFeed
{
    /// <summary>The vat's clock, for ages.</summary>
    WatchClock Clock { get; }

    /// <summary>Every vat, in the order of the configuration.</summary>
    IReadOnlyList<LiveVat> Vats { get; }

    /// <summary>Alarms about the daemon itself that are not in normal.</summary>
    IReadOnlyList<AlarmStatus> DaemonAlarms { get; }

    /// <summary>
    /// What happens from now on: <see cref="Measurement"/>, <see cref="VatCondition"/> (when it changed in state, reasons or rounded numbers),
    /// <see cref="AlarmStatus"/> and <see cref="SessionChange"/> (after they are on disk). A subscriber that lags loses the oldest; <paramref name="capacity"/> bounds it.
    /// </summary>
    ILiveSubscription Subscribe(int capacity);
}
