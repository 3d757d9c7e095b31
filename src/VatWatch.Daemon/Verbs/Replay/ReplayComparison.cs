using VatWatch.Alarms;
using VatWatch.Daemon.Verbs.Terminal;

namespace VatWatch.Daemon.Verbs.Replay;

/// <summary>Says what two configurations would have done with the same night: when each alarm would have been raised.</summary>
internal static class ReplayComparison
{
    /// <summary>The nth time an alarm was raised by one is set beside the nth time it was raised by the other.</summary>
    public static void Write(
        ReplaySetting first, IReadOnlyList<AlarmChange> byFirst, ReplaySetting second, IReadOnlyList<AlarmChange> bySecond, bool json, TextWriter output)
    {
        var pairs = Pair(byFirst, bySecond);
        foreach (var (alarm, one, other) in pairs)
        {
            if (json)
            {
                AdviceWriter.WriteJsonLine(output, writer =>
                {
                    writer.WriteString("alarm", alarm);
                    writer.WriteString("time", Moment(one));
                    writer.WriteString("against", Moment(other));
                });
            }
            else
            {
                output.WriteLine(Sentence(alarm, one, other, first, second));
            }
        }

        if (!json && pairs.Count == 0)
        {
            output.WriteLine($"Neither {first.Name} nor {second.Name} would have raised an alarm.");
        }
    }

    /// <summary>Both raisings of each alarm, in order of the earlier of the two; null where one of them did not raise it.</summary>
    public static IReadOnlyList<(string Alarm, DateTimeOffset? First, DateTimeOffset? Second)> Pair(IEnumerable<AlarmChange> first, IEnumerable<AlarmChange> second)
    {
        var (one, other) = (Times(first), Times(second));
        return
        [
            .. one.Concat(other).Select(alarm => alarm.Key).Distinct()
                .SelectMany(alarm => Enumerable.Range(0, Math.Max(one[alarm].Count(), other[alarm].Count()))
                    .Select(i => (Alarm: alarm, First: At(one[alarm], i), Second: At(other[alarm], i))))
                .OrderBy(pair => pair.First < pair.Second || pair.Second is null ? pair.First : pair.Second)
                .ThenBy(pair => pair.Alarm, StringComparer.Ordinal),
        ];
    }

    private static string Sentence(string alarm, DateTimeOffset? first, DateTimeOffset? second, ReplaySetting one, ReplaySetting other) => (first, second) switch
    {
        ({ } a, { } b) when a == b => $"{alarm}: at {WallTime.Text(a, one.Zone)} with either.",
        ({ } a, { } b) => $"{alarm}: with {one.Name} you would have been told at {WallTime.Text(a, one.Zone)}, with {other.Name} at {WallTime.Text(b, one.Zone)}, {DisplayUnits.Duration((b - a).Duration())} {(b > a ? "later" : "earlier")}.",
        ({ } a, null) => $"{alarm}: with {one.Name} you would have been told at {WallTime.Text(a, one.Zone)}, with {other.Name} not at all.",
        (_, { } b) => $"{alarm}: with {one.Name} you would not have been told, with {other.Name} at {WallTime.Text(b, one.Zone)}.",
        _ => "",
    };

    private static string? Moment(DateTimeOffset? raised) => raised is { } at ? WallTime.Rfc3339(at) : null;

    private static ILookup<string, DateTimeOffset> Times(IEnumerable<AlarmChange> raised) => raised.ToLookup(change => change.Status.Alarm.Value, change => change.Stamp.Utc);

    private static DateTimeOffset? At(IEnumerable<DateTimeOffset> times, int index) => times.Select(time => (DateTimeOffset?)time).ElementAtOrDefault(index);
}
