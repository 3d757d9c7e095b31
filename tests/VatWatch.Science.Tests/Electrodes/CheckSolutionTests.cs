using VatWatch.Science.Electrodes;
using VatWatch.Science.Tests.Reference;

namespace VatWatch.Science.Tests.Electrodes;

public sealed class CheckSolutionTests
{
    // Source: zobell.csv. Standard Methods 2580 B (1997) to whole mV; Nordstrom 1977 to 0.1 mV.
    [Fact]
    public void ZoBell_agrees_with_every_row_of_both_sets()
        => Assert.All(
            ReferenceTable.Load("zobell.csv").Rows,
            row =>
            {
                var (solution, tolerance) = row.Text("set") == "sm2580" ? (CheckSolution.ZoBell, 0.5) : (CheckSolution.ZoBellNordstrom, 0.051);
                var millivolts = solution.MillivoltsVsShe(row.Number("tempC"));
                Assert.Equal(row.Number("mV_vs_SHE"), millivolts.Value, tolerance);
                Assert.False(millivolts.Extrapolated);
            });

    // Source: 699.7 - 0.74 (t - 25) - S pH mV with the NBS/NIST-IUPAC buffers, recomputed to 0.1 mV.
    [Theory]
    [InlineData(10, 486.2, 314.2, 321.8)]
    [InlineData(15, 478.5, 304.8, 312.6)]
    [InlineData(20, 470.7, 295.3, 303.2)]
    [InlineData(25, 462.8, 285.6, 293.6)]
    [InlineData(30, 454.7, 275.7, 283.8)]
    [InlineData(40, 438.4, 255.5, 263.7)]
    [InlineData(50, 421.5, 234.7, 243.1)]
    public void Quinhydrone(double temperatureC, double ph4, double ph7, double ph6865)
    {
        Assert.Equal(ph4, CheckSolution.QuinhydronePh4.MillivoltsVsShe(temperatureC).Value, 0.06);
        Assert.Equal(ph7, CheckSolution.QuinhydronePh7.MillivoltsVsShe(temperatureC).Value, 0.06);
        Assert.Equal(ph6865, CheckSolution.QuinhydronePh6865.MillivoltsVsShe(temperatureC).Value, 0.06);
    }

    // Source: ASTM D1498 nominal table, from memory; agrees within 1 mV.
    [Theory]
    [InlineData(20, 470, 295)]
    [InlineData(25, 462, 285)]
    [InlineData(30, 454, 275)]
    public void Quinhydrone_agrees_with_the_practice_standard(double temperatureC, double ph4, double ph7)
    {
        Assert.Equal(ph4, CheckSolution.QuinhydronePh4.MillivoltsVsShe(temperatureC).Value, 1.0);
        Assert.Equal(ph7, CheckSolution.QuinhydronePh7.MillivoltsVsShe(temperatureC).Value, 1.0);
    }

    // Source: a maker's table against silver chloride in 3.33 mol/L KCl, whose potential lies between those of 3 and 3.5 mol/L.
    [Theory]
    [InlineData(25, 257.6, 89.0)]
    [InlineData(40, 243.6, 69.0)]
    public void Quinhydrone_agrees_with_a_makers_table(double temperatureC, double ph4, double ph7)
    {
        var reference = (ReferenceElectrode.SilverChloride3M.MillivoltsVsShe(temperatureC).Value
            + ReferenceElectrode.SilverChloride3M5.MillivoltsVsShe(temperatureC).Value) / 2;
        Assert.Equal(ph4 + reference, CheckSolution.QuinhydronePh4.MillivoltsVsShe(temperatureC).Value, 2.5);
        Assert.Equal(ph7 + reference, CheckSolution.QuinhydronePh6865.MillivoltsVsShe(temperatureC).Value, 2.5);
    }

    // Source: Light's solution +675 SHE at 25 °C, +468 against 3 mol/L (Light 1972; ASTM D1498).
    [Fact]
    public void Lights_solution_is_known_at_25C_only()
    {
        Assert.Equal(new Estimate(675, false), CheckSolution.Light.MillivoltsVsShe(25));
        Assert.Equal(new Estimate(468, false), CheckSolution.Light.MillivoltsOn(ReferenceElectrode.SilverChloride3M, 25));
        Assert.True(CheckSolution.Light.MillivoltsVsShe(40).Extrapolated);
    }

    [Theory]
    [InlineData(0.5)]
    [InlineData(31)]
    public void ZoBell_outside_its_table_is_flagged(double temperatureC)
        => Assert.True(CheckSolution.ZoBell.MillivoltsVsShe(temperatureC).Extrapolated);

    [Fact]
    public void A_temperature_that_does_not_exist_is_refused()
        => Assert.All(
            CheckSolution.All,
            solution => Assert.Throws<ArgumentOutOfRangeException>(() => solution.MillivoltsVsShe(double.NaN)));
}
