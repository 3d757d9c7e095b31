namespace VatWatch.Plans.Warm;

/// <summary>
/// A vat from the minute its heater goes on, as its last warm-ups showed it, in the room of the hour: a heater that hardly keeps up with the losses is slower in the coldest hours than it was in
/// the evening.
/// </summary>
/// <param name="lossPerHour">Share of what the liquor is above the room that it loses in an hour.</param>
/// <param name="balance">What a heat balance says of a time, which carries the warm-ups on; null for never.</param>
internal sealed class HeatedVat(double lossPerHour, SeenHeat seen, TimeZoneInfo zone, Func<double, double, TimeSpan?> balance)
{
    /// <summary>Share of the loss that goes by the room; the rest is vapour, which goes by the liquor. Set on a second physics, no source.</summary>
    private const double DryShare = 0.6;

    /// <summary>The room changes a pace by no more than this share of it: where it seems to, the loss is wrong. Judgement, no source.</summary>
    private const double MostShare = 0.4;

    /// <summary>Parts of a warm-up in which the room is looked at.</summary>
    private const int Parts = 4;

    private readonly List<SeenWarmUp> _inMeanRoom = [.. seen.WarmUps.Select(one => one.At((kPerHour, at) => Pace(kPerHour, -DryShare * lossPerHour * seen.Room.AboveMeanK(at, zone))))];

    /// <summary>How long it takes; null when it never ends.</summary>
    /// <param name="at">When the heater goes on.</param>
    public TimeSpan? Time(DateTimeOffset at, double fromC, double targetC)
    {
        if (fromC >= targetC)
        {
            return TimeSpan.Zero;
        }

        if (_inMeanRoom.Count == 0 || SeenWarmUp.Time(_inMeanRoom, fromC, targetC, isBegun: false, balance) is not { } time)
        {
            return balance(fromC, targetC);
        }

        var kPerHour = (targetC - fromC) / time.TotalHours;
        var aboveK = Enumerable.Range(0, Parts).Average(part => seen.Room.AboveMeanK(at + (part + 0.5) / Parts * time, zone));
        return time * (kPerHour / Pace(kPerHour, DryShare * lossPerHour * aboveK));
    }

    private static double Pace(double kPerHour, double byRoom) => kPerHour + Math.Clamp(byRoom, -MostShare * kPerHour, MostShare * kPerHour);
}
