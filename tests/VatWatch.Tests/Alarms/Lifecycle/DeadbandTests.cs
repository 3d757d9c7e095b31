using VatWatch.Alarms.Lifecycle;
using VatWatch.Alarms.Rules;

namespace VatWatch.Tests.Alarms.Lifecycle;

public sealed class DeadbandTests
{
    private static readonly Deadband HalfKelvin = new(0.5);

    [Theory]
    [InlineData(49.0, nameof(AlarmSignal.Met))]
    [InlineData(52.0, nameof(AlarmSignal.Met))]
    [InlineData(48.4, nameof(AlarmSignal.Clear))]
    public void A_value_outside_the_deadband_speaks_for_itself(double value, string expected)
    {
        foreach (var before in Enum.GetValues<AlarmSignal>())
        {
            Assert.Equal(expected, HalfKelvin.AtOrAbove(value, 49, before).ToString());
        }
    }

    [Fact]
    public void Within_the_deadband_the_verdict_before_holds()
    {
        foreach (var before in Enum.GetValues<AlarmSignal>())
        {
            Assert.Equal(before, HalfKelvin.AtOrAbove(48.6, 49, before));
            Assert.Equal(before, HalfKelvin.Below(49.4, 49, before));
        }
    }

    [Theory]
    [InlineData(48.9, nameof(AlarmSignal.Met))]
    [InlineData(49.5, nameof(AlarmSignal.Clear))]
    public void A_lower_limit_is_the_mirror_image(double value, string expected) =>
        Assert.Equal(expected, HalfKelvin.Below(value, 49, AlarmSignal.Unknown).ToString());
}
