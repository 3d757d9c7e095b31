using VatWatch.Science.Indigo;

namespace VatWatch.Science.Tests.Indigo;

// Expected figures: electron balance of the half reactions with the molar masses, to four digits.
public sealed class ReducingAgentTests
{
    public static TheoryData<ReducingAgent, double, double, double> Ratios => new()
    {
        { ReducingAgent.ThioureaDioxide, 0.4122, 3.379, 6.757 },
        { ReducingAgent.Dithionite, 0.6639, 5.441, 5.441 },
        { ReducingAgent.Fructose, 0.6869, 11.26, 11.26 },
        { ReducingAgent.Copperas, 2.120, 34.75, 34.75 },
        { ReducingAgent.Zinc, 0.2493, 4.086, 4.086 },
    };

    [Theory]
    [MemberData(nameof(Ratios), DisableDiscoveryEnumeration = true)]
    public void Grams_for_a_gram_of_indigo_and_of_oxygen(ReducingAgent agent, double forIndigo, double leastForOxygen, double mostForOxygen)
    {
        AssertRelative(forIndigo, agent.GramsPerGramIndigo);
        AssertRelative(leastForOxygen, agent.GramsPerGramOxygen.LowGrams);
        AssertRelative(mostForOxygen, agent.GramsPerGramOxygen.HighGrams);
    }

    [Fact]
    public void Soda_ash_eaten_along_the_way()
    {
        Assert.Equal(1.96, ReducingAgent.ThioureaDioxide.AlkaliByOxygen!.Value.SodaAshGramsPerGram, 0.005);
        Assert.Equal(19.6, 10 * ReducingAgent.ThioureaDioxide.AlkaliByOxygen!.Value.SodaAshGramsPerGram, 0.05);
        Assert.Equal(2.94, ReducingAgent.ThioureaDioxide.AlkaliByDye!.Value.SodaAshGramsPerGram, 0.005);
        Assert.Equal(1.22, ReducingAgent.Dithionite.AlkaliByOxygen!.Value.SodaAshGramsPerGram, 0.005);
    }

    [Fact]
    public void What_is_not_known_is_not_a_number()
    {
        Assert.Null(ReducingAgent.Fructose.AlkaliByDye);
        Assert.Null(ReducingAgent.Zinc.AlkaliByOxygen);
    }

    private static void AssertRelative(double expected, double actual)
        => Assert.Equal(expected, actual, expected * 0.0005);
}
