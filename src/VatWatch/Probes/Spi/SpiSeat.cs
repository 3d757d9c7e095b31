using VatWatch.Probes.Blocking;

namespace VatWatch.Probes.Spi;

/// <summary>The one chip of a chip select. Thread safe.</summary>
internal sealed class SpiSeat : IChipSeat<GuardedSpiDevice>
{
    private const int Only = 0;
    private readonly BlockingBus<GuardedSpiDevice> _bus;

    public SpiSeat(BlockingBus<GuardedSpiDevice> bus)
    {
        _bus = bus;
        bus.Chips.Expect(Only);
    }

    public string Place => _bus.Device;

    public string Check => "its supply and the wires SCLK, MOSI, MISO and chip select";

    public Task<T> UseAsync<T>(Func<GuardedSpiDevice, T> use, CancellationToken cancel) => _bus.RunAsync(use, cancel);

    /// <remarks>SPI knows no acknowledge: a transfer fails only when the computer's own side does.</remarks>
    public void Note(bool answered)
    {
        if (_bus.Chips.IsSilentAfter(Only, answered))
        {
            throw new BusLostException($"transfers on {Place} fail; check {Check}");
        }
    }
}
