using VatWatch.Probes.Serial;
using VatWatch.Probes.Serial.Ports;

namespace VatWatch.Probes.Modbus;

/// <summary>Modbus RTU: frames with a checksum on a serial port.</summary>
internal sealed class ModbusSerialLine(SerialBus bus) : IModbusWire
{
    public async ValueTask<ModbusAnswer> AskAsync(ModbusSettings settings, TimeSpan every, CancellationToken cancel)
    {
        var session = bus.Session;
        var reply = new ModbusReply(settings);
        var outcome = await session.ExchangeAsync(settings.Request(), reply, cancel);
        if (outcome == ExchangeOutcome.Answered)
        {
            return reply.Wrong is { } answer
                ? ModbusAnswer.None(Sample.Fault($"address {settings.Address} answered with {answer}"))
                : new(reply.Value, reply.Refusal, null);
        }

        if (reply.Wrong is { } wrong)
        {
            return ModbusAnswer.None(Sample.Fault($"address {settings.Address} was asked, but there came {wrong}"));
        }

        if (outcome == ExchangeOutcome.Rested)
        {
            return ModbusAnswer.Rested(settings);
        }

        session.NoteUnanswered(every);
        return ModbusAnswer.None(Sample.Missing(outcome == ExchangeOutcome.Held
            ? session.HeldReason
            : $"no answer from address {settings.Address} within {bus.Settings.ReplyTimeout.TotalMilliseconds:0} ms"));
    }
}
