using VatWatch.Science.Tests.Reference;
using VatWatch.Science.Thermometry;

namespace VatWatch.Science.Tests.Thermometry;

public sealed class PlatinumToleranceTests
{
    // Source: pt100.csv, IEC 60751 classes in two secondary prints, three decimals.
    [Fact]
    public void Every_row_of_the_table_agrees()
        => Assert.All(
            ReferenceTable.Load("pt100.csv").Rows,
            row =>
            {
                var temperatureC = row.Number("tempC");
                Assert.Equal(row.Number("tolAA_C"), PlatinumTolerance.PlusMinusC(PlatinumClass.AA, temperatureC).Value, 0.00051);
                Assert.Equal(row.Number("tolA_C"), PlatinumTolerance.PlusMinusC(PlatinumClass.A, temperatureC).Value, 0.00051);
                Assert.Equal(row.Number("tolB_C"), PlatinumTolerance.PlusMinusC(PlatinumClass.B, temperatureC).Value, 0.00051);
            });

    // Source: class C, 0.6 + 0.01 |t|, the same prints.
    [Fact]
    public void Class_C_and_temperatures_below_zero_widen_too()
        => Assert.Equal(1.1, PlatinumTolerance.PlusMinusC(PlatinumClass.C, -50).Value, 1e-9);

    [Theory]
    [InlineData(PlatinumClass.AA, 251, true)]
    [InlineData(PlatinumClass.A, 251, false)]
    [InlineData(PlatinumClass.AA, -51, true)]
    [InlineData(PlatinumClass.B, 601, true)]
    public void Outside_the_classs_range_it_is_flagged(PlatinumClass platinumClass, double temperatureC, bool extrapolated)
        => Assert.Equal(extrapolated, PlatinumTolerance.PlusMinusC(platinumClass, temperatureC).Extrapolated);
}
