using VatWatch.Conditions.Heating;

namespace VatWatch.Tests.Conditions.Heating;

public sealed class LearnedHeatTests
{
    [Theory]
    [InlineData(1400, 20, 4, 0.5, 0.3, true)]
    [InlineData(double.NaN, 20, 4, 0.5, 0.3, false)]
    [InlineData(1400, 0, 4, 0.5, 0.3, false)]
    [InlineData(1400, 20, -1, 0.5, 0.3, false)]
    [InlineData(1400, 20, 4, 0.5, 1.3, false)]
    public void A_damaged_record_is_told_from_a_good_one(double power, double powerSigma, double loss, double lossSigma, double correlation, bool good) =>
        Assert.Equal(good, new LearnedHeat(power, powerSigma, loss, lossSigma, correlation, null, null, null, 10, 1).IsPlausible);
}
