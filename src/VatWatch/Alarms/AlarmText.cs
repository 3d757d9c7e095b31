namespace VatWatch.Alarms;

/// <summary>Words of states and priorities as topics, files and the configuration write them.</summary>
public static class AlarmText
{
    private static readonly Dictionary<string, AlarmState> States = Enum.GetValues<AlarmState>().ToDictionary(Word, StringComparer.Ordinal);

    /// <summary>Priorities by their word.</summary>
    public static IReadOnlyDictionary<string, AlarmPriority> Priorities { get; } =
        Enum.GetValues<AlarmPriority>().ToDictionary(Word, StringComparer.Ordinal);

    /// <summary>For example "returned-unacknowledged".</summary>
    public static string Word(this AlarmState state) => state switch
    {
        AlarmState.Normal => "normal",
        AlarmState.Unacknowledged => "unacknowledged",
        AlarmState.Acknowledged => "acknowledged",
        AlarmState.ReturnedUnacknowledged => "returned-unacknowledged",
        AlarmState.Latched => "latched",
        AlarmState.Shelved => "shelved",
        AlarmState.OutOfService => "out-of-service",
        AlarmState.Suppressed => "suppressed",
        _ => throw new ArgumentOutOfRangeException(nameof(state), state, "is not a state"),
    };

    /// <summary>For example "critical".</summary>
    public static string Word(this AlarmPriority priority) => priority switch
    {
        AlarmPriority.Low => "low",
        AlarmPriority.Medium => "medium",
        AlarmPriority.High => "high",
        AlarmPriority.Critical => "critical",
        _ => throw new ArgumentOutOfRangeException(nameof(priority), priority, "is not a priority"),
    };

    /// <summary>The state that <see cref="Word(AlarmState)"/> wrote.</summary>
    /// <exception cref="FormatException">The word is none of ours.</exception>
    public static AlarmState ParseState(string word) =>
        States.TryGetValue(word, out var state) ? state : throw new FormatException($"alarm state is \"{word}\"; wanted one of {string.Join(", ", States.Keys)}");

    /// <summary>What to do about an alarm whose condition does not stand.</summary>
    internal static string ActionWhenGone(AlarmState state, bool isSeen) => (state, isSeen) switch
    {
        (AlarmState.ReturnedUnacknowledged, _) => "It has gone again. See whether all is well, then acknowledge it.",
        (AlarmState.Latched, false) => "It has gone again. See whether all is well, acknowledge it, then reset it.",
        (AlarmState.Latched, true) => "It has gone again and was acknowledged. Reset it when the cause is mended.",
        _ => "Nothing to do.",
    };
}
