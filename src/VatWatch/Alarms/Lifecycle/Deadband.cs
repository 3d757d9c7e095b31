using VatWatch.Alarms.Rules;

namespace VatWatch.Alarms.Lifecycle;

/// <summary>
/// How far a value must come back past its limit before the condition is clear again. Within the deadband the verdict before holds,
/// so a value that trembles about the limit is one excursion and not many.
/// </summary>
/// <param name="Width">In the unit of the value; 0 or more.</param>
internal readonly record struct Deadband(double Width)
{
    /// <summary>Met at or above <paramref name="limit"/>, clear below it by more than the deadband.</summary>
    public AlarmSignal AtOrAbove(double value, double limit, AlarmSignal before) =>
        value >= limit ? AlarmSignal.Met
        : value < limit - Width ? AlarmSignal.Clear
        : before;

    /// <summary>Met below <paramref name="limit"/>, clear at or above it by the deadband.</summary>
    public AlarmSignal Below(double value, double limit, AlarmSignal before) =>
        value < limit ? AlarmSignal.Met
        : value >= limit + Width ? AlarmSignal.Clear
        : before;
}
