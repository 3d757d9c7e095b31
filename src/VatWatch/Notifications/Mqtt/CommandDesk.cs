using System.Buffers;
using Microsoft.Extensions.Logging;
using MQTTnet;
using VatWatch.Alarms;
using VatWatch.Vats;

namespace VatWatch.Notifications.Mqtt;

/// <summary>
/// Takes commands that come in by topic: checks them, has them carried out, and answers on the response topic when there is one. Whatever
/// comes in, it does not throw. Called with one command after another.
/// </summary>
internal sealed class CommandDesk(
    MqttTopics topics, Func<Acknowledgement, CancellationToken, Task<bool>> acknowledge, MqttTally tally, MqttTimings timings, TimeProvider time, ILogger log)
{
    private readonly CommandRate _rate = new(time);
    private bool _flooded;

    /// <summary>Handles one command; the answer goes to <paramref name="send"/>.</summary>
    public async Task HandleAsync(MqttApplicationMessage message, Func<MqttApplicationMessage, Task> send, CancellationToken cancel)
    {
        if (!_rate.TryTake())
        {
            // No answer either: whoever floods us gets no echo.
            Interlocked.Increment(ref tally.CommandsRefused);
            if (!_flooded)
            {
                log.TooManyCommands();
            }

            _flooded = true;
            return;
        }

        _flooded = false;
        var fault = await CarryOutAsync(message, cancel);
        if (fault is null)
        {
            Interlocked.Increment(ref tally.CommandsAccepted);
        }
        else
        {
            Interlocked.Increment(ref tally.CommandsRefused);
            log.CommandRefused(fault);
        }

        if (message.ResponseTopic is { Length: > 0 } answer && topics.MayAnswer(answer))
        {
            await send(MqttMessages.Of(new CommandReply(fault is null, fault), answer, message.CorrelationData));
        }
    }

    /// <summary>Null when carried out, otherwise why not.</summary>
    private async Task<string?> CarryOutAsync(MqttApplicationMessage message, CancellationToken cancel)
    {
        if (!topics.TryReadAcknowledge(message.Topic, out var vat))
        {
            return "the topic names no vat";
        }

        if (message.Retain)
        {
            return "the command is retained, so it would be given again at every connection; send it without";
        }

        return AcknowledgeCommand.TryParse(Bytes(message.Payload), out var command, out var fault)
            ? await AcknowledgeAsync(vat, command, cancel)
            : fault;
    }

    private async Task<string?> AcknowledgeAsync(VatId vat, AcknowledgeCommand command, CancellationToken cancel)
    {
        try
        {
            var done = await acknowledge(new(vat, command.Alarm, command.By, "mqtt"), cancel).WaitAsync(timings.Exchange, time, cancel);
            return done ? null : $"vat '{vat}' has no alarm '{command.Alarm}' that waits for an acknowledgement";
        }
        catch (OperationCanceledException) when (cancel.IsCancellationRequested)
        {
            throw;
        }
        catch (Exception wrong)
        {
            log.AcknowledgeFailed(vat.Value, command.Alarm.Value, wrong);
            return "the acknowledgement could not be stored; try again";
        }
    }

    private static ReadOnlySpan<byte> Bytes(ReadOnlySequence<byte> payload) =>
        payload.IsSingleSegment ? payload.FirstSpan : payload.Slice(0, Math.Min(payload.Length, AcknowledgeCommand.MostBytes + 1)).ToArray();
}
