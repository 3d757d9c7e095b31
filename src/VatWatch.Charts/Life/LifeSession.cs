using VatWatch.Conditions;
using VatWatch.Sessions;
using VatWatch.Sessions.Entries;

namespace VatWatch.Charts.Life;

/// <summary>One session in the life of a vat.</summary>
/// <param name="Session">The session.</param>
/// <param name="AtStart">The condition of the vat when it began; null when nothing was recorded then.</param>
/// <param name="Tally">Its dips and what was added in it and since the session before.</param>
public sealed record LifeSession(Session Session, VatCondition? AtStart, SessionTally Tally)
{
    /// <summary>How much was added for each kg of dry yarn, g/kg; null without the weight of the yarn or when none was added.</summary>
    public double? GramsPerKilogram(Material material) =>
        Session.Details.YarnGrams is { } yarn && Tally.Added.TryGetValue(material, out var grams) ? grams / (yarn / 1000) : null;
}
