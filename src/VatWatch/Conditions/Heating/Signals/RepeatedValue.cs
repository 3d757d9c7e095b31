namespace VatWatch.Conditions.Heating.Signals;

/// <summary>Tells a thermometer that has frozen while the liquor moves from one whose liquor stands still. Not thread safe.</summary>
internal sealed class RepeatedValue
{
    /// <summary>A value that stands still says nothing before this, whatever came due.</summary>
    private static readonly TimeSpan Least = TimeSpan.FromMinutes(6);
    private const double LeastDueK = 0.4;

    /// <summary>A thermometer stands still where a thermostat has just cut off, the longer the coarser it is; with larger steps it says nothing, unless it stopped short of its band.</summary>
    private const double MinutesPerK = 80;
    private const double CoarseStepK = 0.13;

    /// <summary>Near the room a liquor moves with the room, and stops with it: only what is faster is its heater.</summary>
    private const double NearRoomK = 4;
    private const double RoomKPerHour = 1.5;

    /// <summary>In its band a liquor that rises more slowly, or falls, comes to rest by itself.</summary>
    private const double LeastHeatingKPerHour = 1;

    private (TimeSpan Since, double C, double KPerHour)? _same;
    private TimeSpan _longest;

    /// <summary>Since when one value is repeated though the liquor rose or fell before so that several steps have come due; null otherwise.</summary>
    public TimeSpan? FrozenSince { get; private set; }

    /// <summary>Whether a coarse thermometer stands still though more than a step of a rise has come due: the liquor may have come to rest, or the thermometer has frozen.</summary>
    public bool IsDoubtful { get; private set; }

    /// <summary>Takes in a value.</summary>
    /// <param name="at">When, monotonic.</param>
    /// <param name="liquorC">The value, °C.</param>
    /// <param name="stepK">Step of the thermometer, K.</param>
    /// <param name="kPerHour">How fast the liquor moves; null while that is not known.</param>
    /// <param name="isShort">Whether the liquor is below its band and nobody entered the heater as off: no thermostat is set to cut off there.</param>
    /// <param name="isPast">Whether the liquor is above where heating should have ended: nothing but a person ends it there.</param>
    /// <param name="roomC">The room, °C: what cools comes to rest there.</param>
    public void Add(TimeSpan at, double liquorC, double stepK, double? kPerHour, bool isShort, bool isPast, double roomC)
    {
        var lasts = at - (_same?.Since ?? at);
        var rate = _same?.KPerHour ?? 0;
        var due = IsOfRoom(rate, liquorC - roomC) || (rate < LeastHeatingKPerHour && !isShort) ? 0
            : Math.Min(Math.Abs(rate) * lasts.TotalHours, rate < 0 ? Math.Max(0, liquorC - roomC) / 2 : double.PositiveInfinity);
        if (_same is not { } same || Math.Abs(same.C - liquorC) > 1e-9)
        {
            _longest = FrozenSince is null && due >= stepK / 2 && lasts > _longest ? lasts : _longest;
            (_same, FrozenSince, IsDoubtful) = ((at, liquorC, kPerHour ?? 0), null, false);
            return;
        }

        var isLong = lasts > Least + TimeSpan.FromMinutes(MinutesPerK * stepK) && due > Math.Max(4 * stepK, LeastDueK);
        FrozenSince = isLong && (isPast || ((isShort || stepK <= CoarseStepK) && lasts > 3 * _longest)) ? same.Since : null;
        IsDoubtful = stepK > CoarseStepK && rate > 0 && lasts > Least && due > 2 * stepK;
    }

    private static bool IsOfRoom(double kPerHour, double aboveRoomK) => Math.Abs(aboveRoomK) < NearRoomK && Math.Abs(kPerHour) < RoomKPerHour;

    /// <summary>Another thermometer is followed.</summary>
    public void Clear() => (_same, _longest, FrozenSince, IsDoubtful) = (null, TimeSpan.Zero, null, false);
}
