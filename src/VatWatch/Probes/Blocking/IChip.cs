namespace VatWatch.Probes.Blocking;

/// <summary>
/// A chip that has been set up and can be read. Used on its device's thread only. Reading may throw what the wire throws
/// (<see cref="IOException"/>), <see cref="TimeoutException"/>, <see cref="WrongChipException"/>, and the libraries' <see cref="ArgumentException"/> for a value that is no number.
/// </summary>
internal interface IChip
{
    /// <summary>Takes one sample.</summary>
    Sample Read();
}

/// <summary>
/// The chip no longer has the settings it was given: it lost its supply for a moment, or someone else uses it. It is set up anew and read once
/// more, as after a failed transfer.
/// </summary>
internal sealed class ChipRestartedException(string message) : IOException(message);

/// <summary>What answers is not the chip that the configuration names. The message is a clause for people.</summary>
internal sealed class WrongChipException(string message) : Exception(message);

/// <summary>The place of one chip on its bus; the bus counts as silent only when all chips that have one are.</summary>
/// <typeparam name="TDevice">Through which the chip is reached.</typeparam>
internal interface IChipSeat<TDevice>
{
    /// <summary>For sentences, for example <c>0x48 on I2C bus 1</c>.</summary>
    string Place { get; }

    /// <summary>What a person should check when nothing answers there.</summary>
    string Check { get; }

    /// <summary>Uses the chip when it is this caller's turn.</summary>
    Task<T> UseAsync<T>(Func<TDevice, T> use, CancellationToken cancel);

    /// <summary>Tells the bus how a sample went; throws <see cref="BusLostException"/> when by now nothing on the bus answers.</summary>
    void Note(bool answered);
}
