using System.Text.Json;
using VatWatch.Testing;

namespace VatWatch.SystemTests.Faults;

/// <summary>What a foreign client was shown of a vat, held against what the store has.</summary>
internal sealed class ShownNight(IReadOnlyList<ForeignMessage> messages)
{
    /// <summary>Readings with a value: probe and time in milliseconds since 1970.</summary>
    public IReadOnlyList<(string Probe, long Milliseconds)> Readings { get; } =
    [
        .. messages.Where(message => !message.Retained && message.Topic.Contains("/measurement/", StringComparison.Ordinal) && message.Payload.Contains("\"v\":", StringComparison.Ordinal))
            .Select(message => (message.Topic.Split('/')[^1], TimeOf(message.Payload))),
    ];

    /// <summary>Sentences, in order.</summary>
    public IReadOnlyList<string> Sentences { get; } =
        [.. messages.Where(message => message.Topic.EndsWith("/notification", StringComparison.Ordinal)).Select(message => message.Payload)];

    /// <summary>Changes of alarms, each once: "weld-yard overheat unacknowledged" and since when. Those that were normal from the beginning are left out.</summary>
    public IReadOnlyList<(string What, string Since)> Changes { get; } = ChangesIn(messages);

    /// <summary>Readings that were shown and are not in the store.</summary>
    public IReadOnlyList<(string Probe, long Milliseconds)> MissingFrom(StoredRecord record)
    {
        var stored = record.Readings().Select(reading => (reading.Probe, reading.Milliseconds)).ToHashSet();
        return [.. Readings.Where(reading => !Enumerable.Range(-2, 5).Any(off => stored.Contains((reading.Probe, reading.Milliseconds + off))))];
    }

    /// <summary>Changes that were shown and are not in the store.</summary>
    public IReadOnlyList<string> ChangesMissingFrom(StoredRecord record)
    {
        var states = record.AlarmStates();
        return
        [
            .. Changes.GroupBy(change => change.What).Where(group => states.GetValueOrDefault(group.Key) < group.Count())
                .Select(group => $"{group.Key}: shown {group.Count()} times, stored {states.GetValueOrDefault(group.Key)} times"),
        ];
    }

    /// <summary>Sentences that were told and are not in the outbox. While the disk fails they are told from memory and do not get there.</summary>
    public IReadOnlyList<string> SentencesMissingFrom(StoredRecord record)
    {
        // A message also says what to do, behind the sentence.
        var stored = record.Sentences();
        return [.. Sentences.Where(shown => !stored.Any(sentence => shown == sentence || shown.StartsWith(sentence + " ", StringComparison.Ordinal)))];
    }

    /// <summary>The longest time between two readings of a probe.</summary>
    public TimeSpan LongestGap(string probe)
    {
        var times = Readings.Where(reading => reading.Probe == probe).Select(reading => reading.Milliseconds).Order().ToList();
        return TimeSpan.FromMilliseconds(times.Zip(times.Skip(1), (a, b) => b - a).DefaultIfEmpty(0).Max());
    }

    private static List<(string, string)> ChangesIn(IReadOnlyList<ForeignMessage> messages) =>
    [
        .. messages.Where(message => !message.Retained && message.Topic.Contains("/alarm/", StringComparison.Ordinal)).GroupBy(message => message.Topic)
            .SelectMany(topic => topic.Select(message => StateOf(message.Payload)).SkipWhile(state => state.What.EndsWith(" normal", StringComparison.Ordinal)).Distinct()),
    ];

    private static (string What, string Since) StateOf(string payload)
    {
        using var document = JsonDocument.Parse(payload);
        var alarm = document.RootElement;
        return ($"{alarm.GetProperty("vat").GetString()} {alarm.GetProperty("alarm").GetString()} {alarm.GetProperty("state").GetString()}", alarm.GetProperty("since").GetString()!);
    }

    private static long TimeOf(string payload)
    {
        using var document = JsonDocument.Parse(payload);
        return (long)Math.Round(document.RootElement[0].GetProperty("bt").GetDouble() * 1000);
    }
}
