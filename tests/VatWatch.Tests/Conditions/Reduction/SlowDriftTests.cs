using VatWatch.Conditions.Reduction;

namespace VatWatch.Tests.Conditions.Reduction;

public sealed class SlowDriftTests
{
    private readonly SlowDrift _drift = new();

    [Fact]
    public void A_slow_even_rise_with_unmoved_pH_and_temperature_may_be_the_electrode()
    {
        Pass(10, phPerHour: 0);
        Assert.Equal(10, _drift.Found!.Value.PerHour, 0.5);
        _drift.Clear();
        Assert.Null(_drift.Found);
    }

    [Theory]
    [InlineData(30, 0)]
    [InlineData(1, 0)]
    [InlineData(10, -0.05)]
    public void A_fast_rise_none_or_one_with_a_moving_pH_is_not(double perHour, double phPerHour)
    {
        Pass(perHour, phPerHour);
        Assert.Null(_drift.Found);
    }

    private void Pass(double perHour, double phPerHour)
    {
        for (var minute = 0; minute <= 300; minute++)
        {
            _drift.Add(TimeSpan.FromMinutes(minute), -700 + perHour * minute / 60, 10 + phPerHour * minute / 60, 45);
        }
    }
}
