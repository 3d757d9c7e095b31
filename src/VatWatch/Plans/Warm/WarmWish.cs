namespace VatWatch.Plans.Warm;

/// <summary>That a vat is to be warm at a moment.</summary>
/// <param name="Ready">When, UTC.</param>
/// <param name="TargetC">Wanted liquor temperature, °C.</param>
/// <param name="Now">When it is wished, UTC.</param>
/// <param name="LiquorC">The liquor then, °C.</param>
public sealed record WarmWish(DateTimeOffset Ready, double TargetC, DateTimeOffset Now, double LiquorC);
