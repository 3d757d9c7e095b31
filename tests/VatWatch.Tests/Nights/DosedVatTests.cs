using VatWatch.Nights.Scoring;
using VatWatch.Sessions.Entries;

namespace VatWatch.Tests.Nights;

/// <summary>A few vats of the second physics; the table of many is that program's.</summary>
public sealed class DosedVatTests
{
    [Fact]
    public void After_three_doses_the_next_is_narrow_and_mostly_right()
    {
        var told = Enumerable.Range(1, 8).SelectMany(seed => DoseScore.Of(seed, DoseTable.Taught).Doses).Where(dose => dose.Dose.Grams is > 0).ToList();
        foreach (var material in (Material[])[Material.SodaAsh, Material.ReducingAgent])
        {
            var taught = told.Where(dose => dose.Material == material && dose.Before == DoseTable.Taught).ToList();
            Assert.InRange(taught.Count, 4, 8);
            Assert.All(taught, dose => Assert.InRange(DoseTable.Half(dose), 0.05, 0.3));

            // One dose of 5 is outside by right; 6 of 8 by chance once in 10,000 (binomial).
            Assert.True(taught.Count(DoseTable.IsWithin) >= taught.Count / 2 - 1);
        }
    }
}
