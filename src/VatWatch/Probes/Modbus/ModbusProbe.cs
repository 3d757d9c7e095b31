namespace VatWatch.Probes.Modbus;

/// <summary>A probe that asks a device for the number in its registers.</summary>
internal sealed class ModbusProbe(IModbusWire wire, ProbeDefinition definition, ModbusSettings settings) : IProbe
{
    /// <summary>No instrument of a vat gives a float that is smaller, and not zero: bytes in the wrong order often do.</summary>
    private const double LeastMagnitude = 1e-12;

    /// <summary>Nor one that is larger.</summary>
    private const double MostMagnitude = 1e12;

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

        var decoded = settings.Format.Decode(answer.Value.Span);
        if (settings.Format.IsFloat() && double.IsFinite(decoded) && decoded != 0 && Math.Abs(decoded) is < LeastMagnitude or > MostMagnitude)
        {
            return Sample.Fault($"register {settings.Register} of address {settings.Address} holds {Convert.ToHexString(answer.Value.Span)}, which is {decoded:0.0e+0} as {settings.Format.Word()}; {OtherOrders(answer.Value.Span)}");
        }

        var number = decoded * settings.Scale + settings.Offset;
        return double.IsFinite(number)
            ? Sample.Good(number)
            : Sample.Fault($"register {settings.Register} of address {settings.Address} holds {Convert.ToHexString(answer.Value.Span)}, which is not a number");
    }

    /// <summary>What the bytes are in the other orders, where that could be a reading.</summary>
    private string OtherOrders(ReadOnlySpan<byte> bytes)
    {
        var likely = new List<string>();
        foreach (var (word, format) in Registers.Words)
        {
            if (format.IsFloat() && format != settings.Format && format.Decode(bytes) is var value && Math.Abs(value) is > 1e-3 and < 1e6)
            {
                likely.Add($"{value:0.###} as {word}");
            }
        }

        return likely.Count > 0 ? $"the order of its bytes may be another: {string.Join(", ", likely)}" : "no order of its bytes makes it a reading";
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
