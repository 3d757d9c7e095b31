using VatWatch.Conditions;
using VatWatch.Measurements;
using VatWatch.Testing;

namespace VatWatch.Tests.Conditions;

public sealed class ConditionAssessorTests
{
    private readonly VatDefinition _vat = SampleVats.MadderLane();
    private readonly ConditionAssessor _assessor;
    private TimeSpan _now = TimeSpan.FromMinutes(1);

    public ConditionAssessorTests() => _assessor = new ConditionAssessor(_vat, DisplayUnits.Us);

    [Fact]
    public void With_nothing_measured_it_is_unknown_and_says_why()
    {
        var condition = _assessor.Assess(At(_now));
        Assert.Equal(VatState.Unknown, condition.State);
        Assert.Equal("No usable temperature: no value has come yet.", Assert.Single(condition.Reasons));
    }

    [Theory]
    [InlineData(43, 10.0, -700, VatState.Ready)]
    [InlineData(43, 10.0, -640, VatState.Weak)]
    [InlineData(43, 10.0, -500, VatState.Oxidised)]
    [InlineData(43, 9.2, -700, VatState.AlkaliLow)]
    [InlineData(43, 10.8, -700, VatState.AlkaliHigh)]
    [InlineData(48.5, 10.0, -700, VatState.TooHot)]
    [InlineData(30, 10.0, -700, VatState.TooCold)]
    public void Steady_values_give_the_word_of_the_design(double liquorC, double ph, double millivolts, VatState state)
    {
        Assert.Equal(state, Hold(liquorC, ph, millivolts, TimeSpan.FromMinutes(20)).State);
    }

    [Fact]
    public void A_rise_towards_the_band_is_warming_with_the_time_to_the_band()
    {
        // 9 K/h from 30 °C: 37.78 °C (100 °F) is 7.78 K away, by arithmetic 51.9 min on a straight line; losses not yet learned add up to 2 min.
        var condition = Rise(fromC: 27, perHour: 9, TimeSpan.FromMinutes(20));
        Assert.Equal(VatState.Warming, condition.State);
        Assert.Equal(9, condition.TemperatureRateKPerHour!.Value, 0.05);
        var toBand = condition.TimeToBand;
        Assert.NotNull(toBand);
        Assert.Equal((37.78 - 30) / 9 * 60, toBand.Middle.TotalMinutes, 2.0);
        Assert.True(toBand.Early < toBand.Middle && toBand.Middle < toBand.Late);
        Assert.True(condition.TimeToLimit!.Middle > toBand.Middle);
    }

    [Fact]
    public void A_value_too_old_is_not_relied_on()
    {
        Hold(43, 10, -700, TimeSpan.FromMinutes(5));
        _now += TimeSpan.FromSeconds(16);
        var condition = _assessor.Assess(At(_now));
        Assert.Equal(VatState.Unknown, condition.State);
        Assert.Equal("No usable temperature: the last value is 21 s old.", condition.Reasons[0]);
    }

    [Fact]
    public void A_failed_ORP_probe_in_the_band_makes_it_unknown_with_the_probes_own_reason()
    {
        Hold(43, 10, -700, TimeSpan.FromMinutes(5));
        Accept("liquor-orp", Quantity.Orp, null, Quality.Fault, "the electrode is not connected");
        var condition = _assessor.Assess(At(_now));
        Assert.Equal(VatState.Unknown, condition.State);
        Assert.Equal("No usable ORP: probe liquor-orp: the electrode is not connected.", condition.Reasons[0]);
    }

    [Fact]
    public void A_vat_too_hot_is_said_to_be_too_hot_even_without_ORP()
    {
        Accept("liquor", Quantity.Temperature, 49.5, Quality.Good, null);
        Assert.Equal(VatState.TooHot, _assessor.Assess(At(_now)).State);
    }

    [Fact]
    public void Noise_about_a_border_does_not_make_the_word_flicker()
    {
        var random = new Random(11);
        var words = new List<VatState>();
        for (var i = 0; i < 2000; i++)
        {
            words.Add(Hold(_vat.Temperature.HighC - 0.1 + random.NextDouble() * 0.2, 10, -700, TimeSpan.FromSeconds(5)).State);
        }

        var changes = words.Zip(words.Skip(1)).Count(pair => pair.First != pair.Second);
        Assert.InRange(changes, 0, 2);
    }

    [Fact]
    public void The_trend_of_ORP_is_in_millivolts_an_hour()
    {
        VatCondition? last = null;
        for (var i = 0; i < 240; i++)
        {
            last = Hold(43, 10, -700 + i * 10 / 3600.0 * 30, TimeSpan.FromSeconds(10));
        }

        Assert.Equal(30, last!.OrpRateMillivoltsPerHour!.Value, 0.5);
    }

    private VatCondition Rise(double fromC, double perHour, TimeSpan time)
    {
        VatCondition? condition = null;
        var start = _now;
        while (_now - start <= time)
        {
            condition = Hold(fromC + perHour * (_now - start).TotalHours, 10, -700, TimeSpan.FromSeconds(5));
        }

        return condition!;
    }

    private VatCondition Hold(double liquorC, double ph, double millivolts, TimeSpan time)
    {
        for (var end = _now + time; _now < end; _now += TimeSpan.FromSeconds(5))
        {
            Accept("liquor", Quantity.Temperature, liquorC, Quality.Good, null);
            Accept("liquor-ph", Quantity.Ph, ph, Quality.Good, null);
            Accept("liquor-orp", Quantity.Orp, millivolts, Quality.Good, null);
        }

        return _assessor.Assess(At(_now));
    }

    private void Accept(string probe, Quantity measures, double? value, Quality quality, string? reason) =>
        _assessor.Accept(new Measurement(_vat.Id, new ProbeId(probe), measures, At(_now), value, value, quality, reason, null));

    private static Stamp At(TimeSpan monotonic) => new(new DateTimeOffset(2026, 3, 1, 20, 0, 0, TimeSpan.Zero) + monotonic, monotonic, true);
}
