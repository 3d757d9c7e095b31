using VatWatch.Readings;

namespace VatWatch.Daemon.Verbs.Calibrate;

/// <summary>Where a guided calibration sees what the probe shows now.</summary>
internal interface ILiveElectrode : IAsyncDisposable
{
    /// <summary>Readings as they come; ends when the probe is lost.</summary>
    IAsyncEnumerable<Reading> FollowAsync(CancellationToken cancel);
}
