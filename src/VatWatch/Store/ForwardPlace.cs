namespace VatWatch.Store;

/// <summary>How far a server has taken what the store holds.</summary>
/// <param name="Condition">Number of the last condition; 0 for none.</param>
/// <param name="AlarmChange">Number of the last change in the alarm journal; 0 for none.</param>
public readonly record struct ForwardPlace(StoreCursor Readings, long Condition, long AlarmChange)
{
    /// <summary>Nothing taken yet.</summary>
    public static ForwardPlace Beginning { get; } = new(StoreCursor.Beginning, 0, 0);
}
