namespace VatWatch.Probes.Modbus;

/// <summary>What carries requests to devices: a serial line or a network. Thread safe.</summary>
internal interface IModbusWire
{
    /// <summary>Asks; <paramref name="every"/> is the period of who asks. Throws <see cref="BusLostException"/> when the wire is gone.</summary>
    ValueTask<ModbusAnswer> AskAsync(ModbusSettings settings, TimeSpan every, CancellationToken cancel);
}

/// <summary>What came of one request.</summary>
/// <param name="Value">The bytes of the registers; empty when there are none.</param>
/// <param name="Refusal">The code with which the device refuses, or null.</param>
/// <param name="Instead">What there is in place of an answer, or null.</param>
internal readonly record struct ModbusAnswer(ReadOnlyMemory<byte> Value, byte? Refusal, Sample? Instead)
{
    /// <summary>Not asked, see <see cref="SilentDevices"/>.</summary>
    public static ModbusAnswer Rested(ModbusSettings settings) =>
        None(Sample.Missing($"address {settings.Address} does not answer; it is asked less often, so that the others on the line keep their time"));

    /// <summary>No answer, or none that can be used.</summary>
    public static ModbusAnswer None(Sample instead) => new(default, null, instead);
}
