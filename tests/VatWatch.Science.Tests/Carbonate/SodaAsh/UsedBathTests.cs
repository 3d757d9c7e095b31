using VatWatch.Science.Carbonate.SodaAsh;

namespace VatWatch.Science.Tests.Carbonate.SodaAsh;

public class UsedBathTests
{
    [Theory]
    [InlineData(9.5, -0.008, 0.003)]
    [InlineData(10.0, -0.009, 0.003)]
    [InlineData(10.3, -0.0115, 0.003)]
    public void A_used_bath_loses_half_of_what_fresh_soda_ash_loses(double ph, double slope, double within) => Assert.Equal(slope, UsedBath.SlopePerK(ph), within);

    [Fact]
    public void A_bath_too_alkaline_for_soda_ash_behaves_like_lye() => Assert.InRange(UsedBath.SlopePerK(12.5), -0.036, -0.026);

    [Fact]
    public void A_bath_read_cold_is_the_same_bath_when_warm()
    {
        Assert.Equal(10.0, UsedBath.PhAt(UsedBath.PhAt(10.0, 44, 20), 20, 44), 0.03);
        Assert.InRange(UsedBath.PhAt(10.0, 44, 20), 10.15, 10.3);
    }
}
