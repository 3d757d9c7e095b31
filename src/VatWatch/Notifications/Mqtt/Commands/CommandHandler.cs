using System.Buffers;
using MQTTnet;
using Microsoft.Extensions.Logging;
using VatWatch.Alarms.Acts;
using VatWatch.Sessions.Entries;

namespace VatWatch.Notifications.Mqtt.Commands;

/// <summary>
/// Takes commands that come in by topic: checks them, has them carried out, and answers on the response topic when there is one. Whatever
/// comes in, it does not throw. Called with one command after another.
/// </summary>
internal sealed class CommandHandler(
    MqttTopics topics, TopicCommands commands, MqttCounters counters, TimeProvider time, ILogger log)
{
    private readonly CommandRate _rate = new(time);
    private bool _flooded;

    /// <summary>Handles one command; the answer goes to <paramref name="send"/>.</summary>
    public async Task HandleAsync(MqttApplicationMessage message, Func<MqttApplicationMessage, Task> send, CancellationToken cancel)
    {
        if (!_rate.TryTake())
        {
            // No answer either: whoever floods us gets no echo.
            counters.CommandsRefused.Add();
            if (!_flooded)
            {
                log.TooManyCommands();
            }

            _flooded = true;
            return;
        }

        _flooded = false;
        var reply = await CarryOutAsync(message, cancel);
        if (reply.Accepted)
        {
            counters.CommandsAccepted.Add();
        }
        else
        {
            counters.CommandsRefused.Add();
            log.CommandRefused(reply.Reason!);
        }

        if (message.ResponseTopic is { Length: > 0 } answer && topics.MayAnswer(answer))
        {
            await send(MqttMessages.Of(reply, answer, message.CorrelationData));
        }
    }

    private async Task<CommandReply> CarryOutAsync(MqttApplicationMessage message, CancellationToken cancel)
    {
        if (!topics.TryReadCommand(message.Topic, out var vat, out var kind))
        {
            return Refused("the topic names no vat");
        }

        if (message.Retain)
        {
            return Refused("the command is retained, so it would be given again at every connection; send it without");
        }

        try
        {
            return kind is { } act ? await AlarmAsync(act, vat, message.Payload, cancel) : await HeaterAsync(vat, message.Payload, cancel);
        }
        catch (OperationCanceledException) when (cancel.IsCancellationRequested)
        {
            throw;
        }
        catch (Exception wrong)
        {
            log.CommandFailed(FreeText.Shown(message.Topic), wrong);
            return Refused("the command could not be carried out; look at the vat and try again");
        }
    }

    private static CommandReply Refused(string why) => new(false, why);

    private async Task<CommandReply> AlarmAsync(AlarmActKind kind, VatId vat, ReadOnlySequence<byte> payload, CancellationToken cancel)
    {
        if (!AlarmCommand.TryParse(kind, vat, Bytes(payload), out var request, out var fault))
        {
            return Refused(fault);
        }

        var outcome = await commands.Alarms.CarryOutAsync(request, cancel);
        return outcome.Kind switch
        {
            AlarmOutcomeKind.OnDisk => new(true, null),
            AlarmOutcomeKind.InMemory => new(true, outcome.Words),
            _ => Refused(outcome.Words),
        };
    }

    private async Task<CommandReply> HeaterAsync(VatId vat, ReadOnlySequence<byte> payload, CancellationToken cancel)
    {
        if (!HeaterCommand.TryParse(vat, Bytes(payload), out var draft, out var fault))
        {
            return Refused(fault);
        }

        return await commands.WriteEntry(draft, cancel) is { } refused ? Refused(refused.Uncapitalized().TrimEnd('.')) : new(true, null);
    }

    private static ReadOnlySpan<byte> Bytes(ReadOnlySequence<byte> payload) =>
        payload.IsSingleSegment ? payload.FirstSpan : payload.Slice(0, Math.Min(payload.Length, CommandFields.MostBytes + 1)).ToArray();
}

/// <summary>Who carries out what comes in by topic.</summary>
/// <param name="WriteEntry">Writes an entry into the log book; null when it is on disk, otherwise a sentence why not.</param>
public sealed record TopicCommands(AlarmService Alarms, Func<EntryDraft, CancellationToken, Task<string?>> WriteEntry);

/// <summary>The answer to a command that named a response topic.</summary>
/// <param name="Accepted">Whether the command was carried out.</param>
/// <param name="Reason">A clause why not; null when it was, or a sentence that the disk does not take it.</param>
internal sealed record CommandReply(bool Accepted, string? Reason);

/// <summary>How many commands are looked at: a burst of 20, then one each second. Not thread safe.</summary>
/// <remarks>A person with a phone sends one; both numbers are a judgement of ours that leaves room for a whole studio after an outage.</remarks>
internal sealed class CommandRate(TimeProvider time)
{
    private const int Burst = 20;
    private const double PerSecond = 1;
    private double _left = Burst;
    private long _at = time.GetTimestamp();

    /// <summary>Whether one more may be looked at now.</summary>
    public bool TryTake()
    {
        var now = time.GetTimestamp();
        _left = Math.Min(Burst, _left + time.GetElapsedTime(_at, now).TotalSeconds * PerSecond);
        _at = now;
        if (_left < 1)
        {
            return false;
        }

        _left--;
        return true;
    }
}
