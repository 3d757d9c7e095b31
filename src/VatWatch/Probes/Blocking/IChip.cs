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
