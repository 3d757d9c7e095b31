using VatWatch.Science.Electrodes.Ph;
using VatWatch.Science.Tests.Reference;

namespace VatWatch.Science.Tests.Electrodes.Ph;

public sealed class PhBuffersTests
{
    private static readonly Dictionary<string, PhBuffer> ByColumn = new()
    {
        ["phthalate-0.05m"] = PhBuffers.Phthalate,
        ["phosphate-0.025m"] = PhBuffers.Phosphate,
        ["phosphate-7.413"] = PhBuffers.Phosphate7413,
        ["phosphate-7.000"] = PhBuffers.Phosphate7000,
        ["borax-0.01m"] = PhBuffers.Borax,
        ["carbonate-0.025m"] = PhBuffers.Carbonate,
        ["caoh2-sat25"] = PhBuffers.CalciumHydroxide,
        ["tech-4.00"] = PhBuffers.Technical400,
        ["tech-7.00"] = PhBuffers.Technical700,
        ["tech-10.01"] = PhBuffers.Technical1001,
    };

    // Source: ph-buffers.csv, NBS/NIST-IUPAC set and one maker's table of technical buffers.
    [Fact]
    public void Every_row_of_the_tables_is_given_back()
        => Assert.All(
            ReferenceTable.Load("ph-buffers.csv").Rows,
            row =>
            {
                var ph = ByColumn[row.Text("buffer")].PhAt(row.Number("tempC"));
                Assert.Equal(row.Number("pH"), ph.Value, 1e-9);
                Assert.False(ph.Extrapolated);
            });

    // Source: NIST SRM phthalate after Hetzer et al. 1977, pH = 2073.44/T - 13.3270 + 0.045199 T - 3.4846e-5 T². The published sets
    // differ by up to 0.01, and by 0.02 at 60 °C.
    [Theory]
    [InlineData(0)]
    [InlineData(12.5)]
    [InlineData(25)]
    [InlineData(37)]
    [InlineData(50)]
    public void Phthalate_agrees_with_the_independent_equation(double temperatureC)
    {
        var kelvin = temperatureC + 273.15;
        var hetzer = 2073.44 / kelvin - 13.3270 + 0.045199 * kelvin - 3.4846e-5 * kelvin * kelvin;
        Assert.Equal(hetzer, PhBuffers.Phthalate.PhAt(temperatureC).Value, 0.0105);
    }

    [Fact]
    public void Between_rows_the_value_lies_on_the_straight_line()
        => Assert.Equal((10.01 + 9.97) / 2, PhBuffers.Technical1001.PhAt(27.5).Value, 1e-12);

    [Theory]
    [InlineData(-1)]
    [InlineData(50.5)]
    public void Beyond_the_table_the_value_is_flagged(double temperatureC)
        => Assert.True(PhBuffers.Technical1001.PhAt(temperatureC).Extrapolated);

    [Fact]
    public void The_bottles_own_value_wins_at_every_temperature()
    {
        var bottle = PhBuffer.FromBottle(9.94);
        Assert.Equal(Estimate.WithinRange(9.94), bottle.PhAt(34));
        Assert.Equal("bottle 9.94", bottle.Name);
        Assert.Throws<ArgumentOutOfRangeException>(() => PhBuffer.FromBottle(14.5));
        Assert.Throws<ArgumentOutOfRangeException>(() => bottle.PhAt(double.NaN));
    }

    [Fact]
    public void The_label_is_the_value_at_25C()
        => Assert.All(
            PhBuffers.PrimarySet.Concat(PhBuffers.TechnicalSet),
            buffer => Assert.Equal(buffer.LabelPh, buffer.PhAt(25).Value, 1e-9));
}
