using VatWatch.Sessions.Entries;

namespace VatWatch.Sessions;

/// <summary>What the dyer says of a session. All of it may be said later, and changed.</summary>
/// <param name="YarnGrams">Dry weight of the goods, g; above 0.</param>
/// <param name="Fibre">What they are of; null: what the vat is for.</param>
/// <param name="Shade">The shade that is wanted, in the dyer's words.</param>
/// <param name="Verdict">How it came out; null while nobody has said.</param>
public sealed record SessionDetails(double? YarnGrams, Fibre? Fibre, string? Shade, Verdict? Verdict)
{
    /// <summary>Times and number of dips as the dyer means them to be; null: no wish.</summary>
    public DipWish? Wish { get; init; }

    /// <summary>Nothing said.</summary>
    public static SessionDetails None { get; } = new(null, null, null, null);

    /// <summary>Most that one vat takes is far below, g.</summary>
    public const double MostYarnGrams = 500_000;

    /// <summary>Longest wording of a shade.</summary>
    public const int LongestShade = 80;
}
