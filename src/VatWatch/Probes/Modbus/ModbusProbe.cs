namespace VatWatch.Probes.Modbus;

/// <summary>A probe that asks a device for the number in its registers.</summary>
internal sealed class ModbusProbe(IModbusWire wire, ProbeDefinition definition, ModbusSettings settings) : IProbe
{
    public ProbeDefinition Definition => definition;

    public bool Listens => false;

    public async ValueTask<Sample> TakeSampleAsync(CancellationToken cancel) => Judge(await wire.AskAsync(settings, definition.Every, cancel));

    private Sample Judge(ModbusAnswer answer)
    {
        if (answer.Instead is { } instead)
        {
            return instead;
        }

        if (answer.Refusal is { } code)
        {
            return Sample.Fault($"address {settings.Address} refuses register {settings.Register}: {Explain(code)}");
        }

        var number = settings.Format.Decode(answer.Value.Span) * settings.Scale + settings.Offset;
        return double.IsFinite(number)
            ? Sample.Good(number)
            : Sample.Fault($"register {settings.Register} of address {settings.Address} holds {Convert.ToHexString(answer.Value.Span)}, which is not a number");
    }

    /// <summary>Codes of the Modbus application protocol V1.1b3, section 7.</summary>
    private static string Explain(byte code) => code switch
    {
        1 => "it does not know the function (code 1)",
        2 => "it has no such register (code 2)",
        3 => "it does not take the value (code 3)",
        4 => "it has failed (code 4)",
        5 => "it needs longer (code 5)",
        6 => "it is busy (code 6)",
        10 => "the gateway has no way to it (code 10)",
        11 => "the gateway had no answer from it (code 11)",
        _ => $"code {code}",
    };
}
