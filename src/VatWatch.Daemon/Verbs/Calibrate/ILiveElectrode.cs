using VatWatch.Readings;

namespace VatWatch.Daemon.Verbs.Calibrate;

/// <summary>Where a guided calibration sees what the probe shows now.</summary>
internal interface ILiveElectrode : IAsyncDisposable
{
    /// <summary>Readings as they come; ends when the probe is lost.</summary>
    /// <param name="solutionC">Temperature of the solution that it stands in, °C, for an instrument that must be told it.</param>
    /// <param name="cancel">Ends it.</param>
    IAsyncEnumerable<Reading> FollowAsync(double solutionC, CancellationToken cancel);
}
