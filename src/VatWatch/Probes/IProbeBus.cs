namespace VatWatch.Probes;

/// <summary>
/// A serial port, an I2C bus or whatever else probes share. One loop owns it: opens it, asks its probes, closes it, and opens it again
/// after a loss. Opening twice without closing is an error of the caller.
/// </summary>
public interface IProbeBus : IAsyncDisposable
{
    /// <summary>Name in the configuration.</summary>
    BusId Id { get; }

    /// <summary>What a person would look for on the bench, for example <c>/dev/serial/by-id/...</c> or <c>I2C bus 1</c>.</summary>
    string Device { get; }

    /// <summary>Opens the device. Throws <see cref="BusLostException"/> with a sentence when it cannot.</summary>
    ValueTask OpenAsync(CancellationToken cancel);

    /// <summary>Closes the device; never throws and never blocks for longer than a few seconds.</summary>
    ValueTask CloseAsync();

    /// <summary>
    /// Watches an open device that can tell of its own loss while nobody asks it: throws <see cref="BusLostException"/> then. By default, and
    /// for a device that cannot tell, waits until <paramref name="cancel"/>.
    /// </summary>
    Task WatchForLossAsync(CancellationToken cancel) => new TaskCompletionSource().Task.WaitAsync(cancel);
}
