namespace VatWatch.Sessions;

/// <summary>One spell of dyeing in one vat, from getting ready to putting the lid on. Immutable.</summary>
public sealed record Session
{
    public required VatId Vat { get; init; }

    /// <summary>Its name among the sessions of the vat.</summary>
    public required SessionId Id { get; init; }

    /// <summary>When it began.</summary>
    public required Stamp Started { get; init; }

    /// <summary>When it ended, UTC; null while it goes on.</summary>
    public DateTimeOffset? Ended { get; init; }

    /// <summary>Who began it, as they gave it.</summary>
    public required string By { get; init; }

    /// <summary>What the dyer says of it.</summary>
    public SessionDetails Details { get; init; } = SessionDetails.None;

    /// <summary>Whether it goes on.</summary>
    public bool IsOpen => Ended is null;

    /// <summary>
    /// What a chart or report of it covers: its time up to <paramref name="now"/> while it goes on. A short one has <see cref="LeastSpan"/>, with what was
    /// before it while it goes on and with what came after it when it has ended.
    /// </summary>
    public (DateTimeOffset From, DateTimeOffset To) Span(DateTimeOffset now)
    {
        var to = Ended ?? now;
        return to - Started.Utc > LeastSpan ? (Started.Utc, to) : IsOpen ? (to - LeastSpan, to) : (Started.Utc, Started.Utc + LeastSpan);
    }

    /// <summary>A chart of less shows nothing.</summary>
    public static TimeSpan LeastSpan { get; } = TimeSpan.FromMinutes(10);
}

/// <summary>One time of the goods in the liquor.</summary>
/// <param name="In">When they went in.</param>
/// <param name="Out">When they came out; null while they are in.</param>
public readonly record struct Dip(Stamp In, Stamp? Out)
{
    /// <summary>How long, by the labels (the two may be of two runs of the daemon); null while they are in.</summary>
    public TimeSpan? Length => Out?.Utc - In.Utc;
}
