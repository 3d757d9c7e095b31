using System.Text;
using VatWatch.Calibration;
using VatWatch.Vats.Configuration;

namespace VatWatch.Tests.Calibration;

public sealed class CalibrationLimitsTests
{
    [Fact]
    public void An_empty_section_gives_the_defaults()
    {
        var (limits, faults) = Read("{}", Quantity.Ph);
        Assert.Empty(faults);
        Assert.Equal(CalibrationLimits.Default(Quantity.Ph), limits);
        Assert.Equal((95, 102, 85, 105, 20, 60), (limits.Ph.WornBelowPercent, limits.Ph.WornAbovePercent, limits.Ph.UnfitBelowPercent, limits.Ph.UnfitAbovePercent, limits.Ph.WornBeyondMillivolts, limits.Ph.UnfitBeyondMillivolts));
        Assert.Equal(15, CalibrationLimits.Default(Quantity.Orp).WarnDrift);
    }

    [Fact]
    public void Every_limit_can_be_set()
    {
        var (ph, faults) = Read(
            """{ "maxAge": "14 d", "warnSlopeBelow": "92 %", "failSlopeBelow": "88 %", "warnOffset": "15 mV", "failOffset": "30 mV", "warnSettling": "45 s", "warnDrift": 0.2 }""",
            Quantity.Ph);
        Assert.Empty(faults);
        Assert.Equal((14, 92, 88, 30, 45, 0.2), (ph.MaxAge.TotalDays, ph.Ph.WornBelowPercent, ph.Ph.UnfitBelowPercent, ph.Ph.UnfitBeyondMillivolts, ph.WarnSettling.TotalSeconds, ph.WarnDrift));

        var (orp, _) = Read("""{ "warnOffset": "10 mV", "failOffset": "25 mV", "failDrift": "40 mV" }""", Quantity.Orp);
        Assert.Equal((10, 25, 40), (orp.OrpWornBeyondMillivolts, orp.OrpUnfitBeyondMillivolts, orp.FailDrift));
    }

    [Theory]
    [InlineData("""{ "warnOffset": 20 }""", "probe.calibration.warnOffset is 20; wanted a potential with its unit")]
    [InlineData("""{ "maxAge": "2 s" }""", "probe.calibration.maxAge is \"2 s\"")]
    [InlineData("""{ "failOffset": "5 mV" }""", "wanted at or above warnOffset")]
    [InlineData("""{ "slope": 3 }""", "probe.calibration.slope is an unknown key")]
    public void A_fault_names_the_key_the_value_and_what_is_wanted(string json, string sentence)
    {
        var (_, faults) = Read(json, Quantity.Ph);
        Assert.Contains(sentence, Assert.Single(faults), StringComparison.Ordinal);
    }

    private static (CalibrationLimits Limits, IReadOnlyList<string> Faults) Read(string json, Quantity measures)
    {
        var faults = new ConfigFaults();
        var root = ConfigFile.Parse(Encoding.UTF8.GetBytes($$"""{ "probe": { "calibration": {{json}} } }"""), faults)!;
        var limits = CalibrationLimits.Read(root.Section("probe").Section("calibration"), measures);
        return (limits, [.. faults.All.Select(fault => fault.ToString())]);
    }
}
