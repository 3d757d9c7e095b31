namespace VatWatch.Probes.Blocking;

/// <summary>The place of one chip on its bus.</summary>
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
