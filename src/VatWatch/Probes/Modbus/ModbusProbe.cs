using VatWatch.Probes.Serial;

namespace VatWatch.Probes.Modbus;

/// <summary>A probe that asks a device for the number in its registers.</summary>
internal sealed class ModbusProbe(SerialBus bus, ProbeDefinition definition, ModbusSettings settings) : IProbe
{
    private readonly byte[] _request = settings.Request();

    public ProbeDefinition Definition => definition;

    public bool Listens => false;

    public async ValueTask<Sample> TakeSampleAsync(CancellationToken cancel)
    {
        var session = bus.Session;
        var reply = new ModbusReply(settings);
        var outcome = await session.ExchangeAsync(_request, reply, cancel);
        if (outcome == ExchangeOutcome.Answered)
        {
            return Judge(reply);
        }

        if (reply.Wrong is { } wrong)
        {
            return Sample.Fault($"address {settings.Address} was asked, but there came {wrong}");
        }

        session.NoteUnanswered(definition.Every);
        return Sample.Missing(outcome == ExchangeOutcome.Held
            ? session.HeldReason
            : $"no answer from address {settings.Address} within {bus.Settings.ReplyTimeout.TotalMilliseconds:0} ms");
    }

    private Sample Judge(ModbusReply reply)
    {
        if (reply.Wrong is { } wrong)
        {
            return Sample.Fault($"address {settings.Address} answered with {wrong}");
        }

        if (reply.Refusal is { } code)
        {
            return Sample.Fault($"address {settings.Address} refuses register {settings.Register}: {Explain(code)}");
        }

        var number = settings.Format.Decode(reply.Value.Span) * settings.Scale;
        return double.IsFinite(number)
            ? Sample.Good(number)
            : Sample.Fault($"register {settings.Register} of address {settings.Address} holds {Convert.ToHexString(reply.Value.Span)}, which is not a number");
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
        _ => $"code {code}",
    };
}
