using VatWatch.Science.Carbonate;
using VatWatch.Science.Carbonate.SodaAsh;

namespace VatWatch.Science.Tests.Carbonate.SodaAsh;

public class AlkaliDemandTests
{
    // meq and grams of soda ash per gram; arithmetic on balanced equations (routes: Svarovsky 2000; Gao et al. 2007).
    public static TheoryData<string, double, double> Table => new()
    {
        { nameof(AlkaliDemand.ThioureaDioxideByAir), 18.5, 1.96 },
        { nameof(AlkaliDemand.ThioureaDioxideByDye), 27.7, 2.94 },
        { nameof(AlkaliDemand.LeucoIndigo), 3.8, 0.40 },
        { nameof(AlkaliDemand.DithioniteByAir), 11.5, 1.22 },
    };

    [Theory]
    [MemberData(nameof(Table))]
    public void Alkali_per_gram_agrees_with_the_balanced_equations(string name, double meq, double sodaAsh)
    {
        var demand = (AlkaliDemand)typeof(AlkaliDemand).GetProperty(name)!.GetValue(null)!;
        Assert.Equal(meq, demand.MeqPerGram, 0.051);
        Assert.Equal(sodaAsh, demand.SodaAshGramsPerGram, 0.0051);
    }

    // Reducing agent and dye (g/L) in fresh soda ash baths at 45 °C, all reacted: acid (meq/kg) and pH of a separate program (Python).
    [Theory]
    [InlineData(0, 0, 0, 10.73, 10.87)]
    [InlineData(0.25, 0, 4.7, 10.31, 10.62)]
    [InlineData(0.5, 0, 9.3, 9.93, 10.39)]
    [InlineData(0.5, 0.5, 11.3, 9.76, 10.30)]
    [InlineData(1, 0, 18.7, 8.39, 10.02)]
    [InlineData(1, 1, 22.5, null, 9.89)]
    [InlineData(2, 1, 41, null, 9.07)]
    public void Reducing_agent_and_dye_bring_a_bath_down_as_computed(
        double reducer, double dye, double acidMeq, double? phIn2GramsPerLitre, double phIn5GramsPerLitre)
    {
        var acid = AlkaliDemand.ThioureaDioxideByAir.AcidMolal(reducer, 1, 45) + AlkaliDemand.LeucoIndigo.AcidMolal(dye, 1, 45);
        Assert.Equal(acidMeq, 1000 * acid, acidMeq > 30 ? 0.51 : 0.1);
        if (phIn2GramsPerLitre is { } ph)
            Assert.Equal(ph, Ph(2), 0.0101);
        else
            Assert.True(Ph(2) < BathSpeciation.AlkaliSpentBelowPh);
        Assert.Equal(phIn5GramsPerLitre, Ph(5), 0.0101);

        double Ph(double sodaAsh) =>
            BathEquilibrium.Solve(default(BathComposition).Add(AlkaliProduct.SodaAsh, sodaAsh, 1, 45).AddAcid(acid), 45).Ph;
    }
}
