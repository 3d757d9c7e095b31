using VatWatch.Testing.Fuzz;

namespace VatWatch.Tests.Fuzz;

/// <summary>That the random cases are many and the same every time.</summary>
public sealed class MutantsTests
{
    private static readonly string[] Real = ["one two three four", "five", "six seven eight nine ten"];

    [Fact]
    public void Cases_are_nearly_all_different_reach_every_original_and_come_again_the_same()
    {
        var (first, second) = (Take(2000), Take(2000));
        Assert.Equal(first, second);
        Assert.InRange(first.Distinct().Count(), 1200, 2000);
        Assert.All(Real, real => Assert.InRange(first.Count(text => text == real), 20, 400));
    }

    [Fact]
    public void A_case_that_fails_is_named_and_shown()
    {
        var told = Assert.Throws<InvalidOperationException>(() => Cases.Hold(Mutants.Of(Real), 2000, text => Assert.DoesNotContain("\u001b", text, StringComparison.Ordinal), text => $"<{text}>"));
        Assert.Matches(@"^case \d+ \(VATWATCH_CASE=\d+ runs it alone\)", told.Message);
    }

    private static List<string> Take(int count)
    {
        var taken = new List<string>();
        Cases.Hold(Mutants.Of(Real), count, taken.Add, text => text);
        return taken;
    }
}
