using VatWatch.Alarms.Daemon;
using VatWatch.Calibration;
using VatWatch.Pipeline.Configuration;

namespace VatWatch.Pipeline.Assembly;

/// <summary>Says which probes should be calibrated again. Used by the watch stage only.</summary>
/// <param name="vats">The vats with the limits of their probes.</param>
/// <param name="time">The wall's clock; age is counted by it, however fast a simulated vat lives.</param>
/// <param name="isTrusted">Whether UTC is to be believed.</param>
internal sealed class CalibrationSignals(IReadOnlyList<VatPlan> vats, CalibrationCache calibrations, TimeProvider time, Func<bool> isTrusted)
{
    /// <summary>Ages are counted in days, so a minute is soon enough; a new calibration counts at once.</summary>
    private static readonly TimeSpan Holds = TimeSpan.FromMinutes(1);

    private IReadOnlyList<DaemonSignal>? _signals;
    private long _lookedAt;
    private long _newest;

    /// <summary>One signal for each probe that can be calibrated.</summary>
    public IReadOnlyList<DaemonSignal> Signals()
    {
        if (_signals is null || calibrations.Newest != _newest || time.GetElapsedTime(_lookedAt) >= Holds)
        {
            _newest = calibrations.Newest;
            _lookedAt = time.GetTimestamp();
            _signals = [.. Evaluate(isTrusted() ? time.GetUtcNow() : null)];
        }

        return _signals;
    }

    private IEnumerable<DaemonSignal> Evaluate(DateTimeOffset? now)
    {
        foreach (var (vat, probe) in vats.SelectMany(vat => vat.Definition.Probes.Select(probe => (vat, probe))))
        {
            if (CalibrationDue.Of(probe, calibrations, vat.LimitsOf(probe), now) is { } due)
            {
                yield return CalibrationDueAlarm.Signal(probe.Id, due.IsDue, due.Sentence);
            }
        }
    }
}
