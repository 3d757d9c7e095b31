using System.IO.Ports;

namespace VatWatch.Probes.Serial;

/// <summary>How one serial port is to be opened and how patient its users are.</summary>
public sealed record SerialSettings
{
    /// <summary>Path of the device; <c>/dev/serial/by-id/...</c> survives replugging.</summary>
    public required string Port { get; init; }

    /// <summary>Bits per second, 300 to 1,000,000; default 9600.</summary>
    public int Baud { get; init; } = 9600;

    /// <summary>None, even or odd; default none.</summary>
    public Parity Parity { get; init; } = Parity.None;

    /// <summary>7 or 8; default 8.</summary>
    public int DataBits { get; init; } = 8;

    /// <summary>One or two; default one.</summary>
    public StopBits StopBits { get; init; } = StopBits.One;

    /// <summary>Whether to raise DTR; default false, because many converters and every pseudo-terminal refuse it.</summary>
    public bool Dtr { get; init; }

    /// <summary>Whether to raise RTS; default false.</summary>
    public bool Rts { get; init; }

    /// <summary>How long an asked instrument may take to answer, 20 ms to 4 s; default 1 s.</summary>
    public TimeSpan ReplyTimeout { get; init; } = TimeSpan.FromSeconds(1);

    /// <summary>After how long without a single byte the port is closed and opened afresh, 10 s to 1 h; default 60 s.</summary>
    public TimeSpan ReopenAfterSilence { get; init; } = TimeSpan.FromSeconds(60);

    /// <summary>The rest before a request: 3.5 characters, at least 1.75 ms (Modbus serial line guide V1.02, 2.5.1.1).</summary>
    public TimeSpan Gap
    {
        get
        {
            var bits = 1 + DataBits + (Parity == Parity.None ? 0 : 1) + (StopBits == StopBits.Two ? 2 : 1);
            return TimeSpan.FromMilliseconds(Math.Max(1.75, 3.5 * bits * 1000 / Baud));
        }
    }
}
