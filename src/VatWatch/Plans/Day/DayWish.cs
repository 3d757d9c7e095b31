using VatWatch.Conditions.Heating;

namespace VatWatch.Plans.Day;

/// <summary>What a day is to bring, and how this dyer works.</summary>
/// <param name="Goods">What is to be dyed; at least one.</param>
/// <param name="Begins">When the first dip may be, UTC.</param>
/// <param name="LiquorC">The liquor then, °C; work goes on at that warmth.</param>
public sealed record DayWish(IReadOnlyList<Goods> Goods, DateTimeOffset Begins, double LiquorC)
{
    /// <summary>The liquor now where it must be warmed first, °C; null where it is warm enough or not known.</summary>
    public double? ColdC { get; init; }

    /// <summary>Why nobody knows how warm the liquor is now, as a clause; null where that is known.</summary>
    public string? WhyUnknown { get; init; }

    /// <summary>Time in the liquor.</summary>
    public TimeSpan Dip { get; init; } = DipOutlook.UsualDip;

    /// <summary>Whether <see cref="Dip"/> is how long the last dips took.</summary>
    public bool DipIsSeen { get; init; }

    /// <summary>Time in the air after it; usually as long as the dip (Mairet, A Book on Vegetable Dyes, 1916).</summary>
    public TimeSpan Airing { get; init; } = DipOutlook.UsualDip;

    /// <summary>Time that the liquor is left to clear after a dip: as ORP came back before, else common practice, no source.</summary>
    public TimeSpan Recovery { get; init; } = UsualRecovery;

    /// <summary>Whether <see cref="Recovery"/> was measured on this vat.</summary>
    public bool RecoveryIsMeasured { get; init; }

    /// <summary>What the vat is given on the way, each with the dips before it and the time it takes to work.</summary>
    public IReadOnlyList<(int AfterDips, TimeSpan Wait, IReadOnlyList<PlannedDose> Doses)> Additions { get; init; } = [];

    /// <summary>Taken where no dip of this vat was watched yet.</summary>
    public static TimeSpan UsualRecovery { get; } = TimeSpan.FromMinutes(10);
}
