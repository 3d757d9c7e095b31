namespace VatWatch.Sessions;

/// <summary>One time of the goods in the liquor.</summary>
/// <param name="In">When they went in.</param>
/// <param name="Out">When they came out; null while they are in.</param>
public readonly record struct Dip(Stamp In, Stamp? Out)
{
    /// <summary>How long, by the labels (the two may be of two runs of the daemon); null while they are in.</summary>
    public TimeSpan? Length => Out?.Utc - In.Utc;
}
