namespace VatWatch.Alarms;

/// <summary>What an alarm says besides the words of its rule.</summary>
internal static class AlarmText
{
    /// <summary>What to do about an alarm whose condition does not stand.</summary>
    public static string ActionWhenGone(AlarmState state, bool isSeen) => (state, isSeen) switch
    {
        (AlarmState.ReturnedUnacknowledged, _) => "It has gone again. See whether all is well, then acknowledge it.",
        (AlarmState.Latched, false) => "It has gone again. See whether all is well, acknowledge it, then reset it.",
        (AlarmState.Latched, true) => "It has gone again and was acknowledged. Reset it when the cause is mended.",
        _ => "Nothing to do.",
    };
}
