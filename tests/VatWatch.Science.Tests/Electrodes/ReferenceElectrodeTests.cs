using VatWatch.Science.Electrodes;
using VatWatch.Science.Tests.Reference;

namespace VatWatch.Science.Tests.Electrodes;

public sealed class ReferenceElectrodeTests
{
    // Source: agagcl.csv, ISO 11271:2002 Annex C and USGS NFM A6.5 after Sawyer et al. 1995; rows above 40 °C of the latter extended.
    [Fact]
    public void Every_row_of_the_table_is_given_back_and_extended_rows_are_flagged()
        => Assert.All(
            ReferenceTable.Load("agagcl.csv").Rows,
            row =>
            {
                var millivolts = ByRow(row.Text("filling"), row.Text("set")).MillivoltsVsShe(row.Number("tempC"));
                Assert.Equal(row.Number("mV_vs_SHE"), millivolts.Value, 1e-9);
                Assert.Equal(row.Text("status") == "extrapolated", millivolts.Extrapolated);
            });

    // Source: a glossary's table for saturated calomel, 15 to 35 °C; above it 244.4 - 0.675 (t - 25), rounded to 1 mV.
    [Theory]
    [InlineData(15, 251.1, 0.05)]
    [InlineData(20, 247.9, 0.05)]
    [InlineData(25, 244.4, 0.05)]
    [InlineData(30, 241.1, 0.05)]
    [InlineData(35, 237.6, 0.05)]
    [InlineData(40, 234, 0.5)]
    [InlineData(45, 231, 0.5)]
    [InlineData(50, 228, 0.55)]
    [InlineData(60, 221, 0.5)]
    public void Saturated_calomel(double temperatureC, double millivolts, double tolerance)
    {
        var estimate = ReferenceElectrode.SaturatedCalomel.MillivoltsVsShe(temperatureC);
        Assert.Equal(millivolts, estimate.Value, tolerance);
        Assert.Equal(temperatureC > 35, estimate.Extrapolated);
    }

    // By the Nernst relation for AgCl + e- = Ag + Cl-; the USGS row for 3 mol/L belongs to the same source as 3.5 mol/L and saturated.
    [Theory]
    [InlineData(25)]
    [InlineData(50)]
    public void More_chloride_means_a_lower_potential(double t)
    {
        double[] falling =
        [
            ReferenceElectrode.SilverChloride1M.MillivoltsVsShe(t).Value,
            ReferenceElectrode.SilverChloride3MUsgs.MillivoltsVsShe(t).Value,
            ReferenceElectrode.SilverChloride3M5.MillivoltsVsShe(t).Value,
            ReferenceElectrode.SilverChlorideSaturated.MillivoltsVsShe(t).Value,
        ];
        Assert.Equal(falling.OrderDescending(), falling);
    }

    [Theory]
    [InlineData("SHE", "SHE")]
    [InlineData("NHE", "SHE")]
    [InlineData("standard hydrogen electrode", "SHE")]
    [InlineData("SCE", "SCE")]
    [InlineData("Calomel (sat. KCl)", "SCE")]
    [InlineData("Hg/Hg2Cl2 sat'd KCl", "SCE")]
    [InlineData("Ag/AgCl 3 M KCl", "Ag/AgCl 3 M KCl")]
    [InlineData("ag/agcl, 3.0M", "Ag/AgCl 3 M KCl")]
    [InlineData("Ag|AgCl 3 mol/L KCl", "Ag/AgCl 3 M KCl")]
    [InlineData("Ag/AgCl 3 M KCl (USGS)", "Ag/AgCl 3 M KCl (USGS)")]
    [InlineData("Silver/silver chloride 3.5 M KCl", "Ag/AgCl 3.5 M KCl")]
    [InlineData("Ag/AgCl 1 M KCl", "Ag/AgCl 1 M KCl")]
    [InlineData("Ag/AgCl (sat. KCl)", "Ag/AgCl saturated KCl")]
    [InlineData("Ag/AgCl saturated KCl", "Ag/AgCl saturated KCl")]
    public void Names_are_read_as_people_write_them(string text, string name)
        => Assert.Equal(name, ReferenceElectrode.Parse(text).Name);

    [Fact]
    public void Every_electrode_can_be_read_back_from_its_own_name()
        => Assert.All(ReferenceElectrode.All, electrode => Assert.Same(electrode, ReferenceElectrode.Parse(electrode.Name)));

    [Theory]
    [InlineData("Ag/AgCl")]
    [InlineData("Ag/AgCl 2 M KCl")]
    [InlineData("3 M KCl")]
    [InlineData("calomel")]
    [InlineData("")]
    [InlineData(null)]
    public void A_name_without_a_known_filling_is_refused_with_the_list(string? text)
    {
        Assert.False(ReferenceElectrode.TryParse(text, out _));
        var refusal = Assert.Throws<FormatException>(() => ReferenceElectrode.Parse(text));
        Assert.Contains($"\"{text}\"", refusal.Message, StringComparison.Ordinal);
        Assert.Contains("Ag/AgCl 3 M KCl", refusal.Message, StringComparison.Ordinal);
    }

    private static ReferenceElectrode ByRow(string filling, string set) => (filling, set) switch
    {
        ("1M", _) => ReferenceElectrode.SilverChloride1M,
        ("3M", "iso11271") => ReferenceElectrode.SilverChloride3M,
        ("3M", _) => ReferenceElectrode.SilverChloride3MUsgs,
        ("3.5M", _) => ReferenceElectrode.SilverChloride3M5,
        ("sat", _) => ReferenceElectrode.SilverChlorideSaturated,
        _ => throw new InvalidDataException(filling),
    };
}
