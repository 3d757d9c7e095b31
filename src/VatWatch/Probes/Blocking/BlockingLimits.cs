namespace VatWatch.Probes.Blocking;

/// <summary>How long the blocking calls on a device may take before the device is given up.</summary>
/// <param name="Transfer">One transfer. A call stuck in one is noticed after one to two times this.</param>
/// <param name="Call">A whole call: every transfer and pause of one sample.</param>
/// <param name="Close">Closing; afterwards the thread is left to end by itself.</param>
internal sealed record BlockingLimits(TimeSpan Transfer, TimeSpan Call, TimeSpan Close)
{
    /// <summary>
    /// For I2C and SPI. Linux adapters end a transfer by themselves after 1 s (their usual default, from memory), so 2 s is a driver that
    /// hangs; the slowest sample of ours, two attempts at an electrode board, needs 1.6 s.
    /// </summary>
    public static BlockingLimits Wire { get; } = new(TimeSpan.FromSeconds(2), TimeSpan.FromSeconds(8), TimeSpan.FromSeconds(2));

    /// <summary>For 1-wire: the kernel tries five times before it answers, each attempt up to 750 ms.</summary>
    public static BlockingLimits OneWire { get; } = new(TimeSpan.FromSeconds(8), TimeSpan.FromSeconds(10), TimeSpan.FromSeconds(2));
}
