namespace VatWatch.Probes.Modbus;

/// <summary>What carries requests to devices: a serial line or a network. Thread safe.</summary>
internal interface IModbusWire
{
    /// <summary>Asks; <paramref name="every"/> is the period of who asks. Throws <see cref="BusLostException"/> when the wire is gone.</summary>
    ValueTask<ModbusAnswer> AskAsync(ModbusSettings settings, TimeSpan every, CancellationToken cancel);
}
