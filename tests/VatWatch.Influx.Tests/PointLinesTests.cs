using VatWatch.Alarms;
using VatWatch.Conditions;
using VatWatch.Conditions.Stored;
using VatWatch.Store;

namespace VatWatch.Influx.Tests;

public sealed class PointLinesTests
{
    private readonly PointLines _points = new("hill-studio", DisplayUnits.Us);

    [Fact]
    public void A_good_reading_has_its_value_and_its_raw_value() => Assert.Equal(
        "vat_reading,site=hill-studio,vat=madder-lane,probe=liquor,measures=temperature,unit=°C value=43.62,raw=43.62,quality=\"good\",qualityCode=0i,utcTrusted=true 1931277600000000005",
        _points.Of(new StoredMeasurement(5, 1, 1, CopyRig.Reading(0))));

    [Fact]
    public void A_missing_reading_is_a_point_without_a_value_and_with_a_reason() => Assert.Equal(
        "vat_reading,site=hill-studio,vat=madder-lane,probe=liquor,measures=temperature,unit=°C quality=\"missing\",qualityCode=2i,reason=\"no reply within 500 ms\",utcTrusted=true 1931277600000000000",
        _points.Of(new StoredMeasurement(64, 1, 1, CopyRig.Reading(0, null))));

    [Fact]
    public void A_fault_keeps_the_raw_value_and_the_calibration()
    {
        var fault = CopyRig.Reading(0) with { Raw = double.NaN, Value = null, Quality = Quality.Fault, Reason = "not a number", Calibration = 7 };
        var line = _points.Of(new StoredMeasurement(0, 1, 1, fault with { Stamp = new Stamp(CopyRig.Dusk, TimeSpan.Zero, false) }));
        Assert.Contains(" rawText=\"NaN\",quality=\"fault\",qualityCode=3i,reason=\"not a number\",calibration=7i,utcTrusted=false ", line, StringComparison.Ordinal);
    }

    [Fact]
    public void A_condition_has_its_state_its_reasons_and_the_numbers_that_are_known()
    {
        var condition = CopyRig.Condition(0, VatState.TooCold);
        var stored = new StoredCondition(1203, condition.Stamp.Utc, true, condition.Vat, condition.State.Word(), condition.Reasons, ConditionNumbers.Of(condition));
        Assert.Equal(
            "vat_condition,site=hill-studio,vat=madder-lane state=\"too cold\",reasons=\"The liquor is at 96 °F. It warms by 5 °F an hour.\",utcTrusted=true,"
            + "temperatureC=35.6,minutesToBandEarly=40,minutesToBand=50 1931277600000000003",
            _points.Of(stored));
    }

    [Fact]
    public void A_change_of_an_alarm_has_both_states_the_numbers_and_the_words() => Assert.Equal(
        "vat_alarm,site=hill-studio,vat=madder-lane,alarm=overheat state=\"unacknowledged\",before=\"normal\",priority=\"critical\",active=true,value=120.4,limit=120,unit=\"°F\","
        + "text=\"Madder Lane vat is at 120.4 °F, \\\"limit\\\" 120 °F.\",action=\"Unplug the heater.\",announced=true,utcTrusted=true 1931277600000000017",
        _points.Of(new StoredAlarmChange(17, CopyRig.Change(0))));

    [Fact]
    public void A_label_before_1970_counts_backwards()
    {
        var line = _points.Of(new StoredMeasurement(1, 1, 1, CopyRig.Reading(0) with { Stamp = new Stamp(DateTimeOffset.UnixEpoch.AddTicks(-10), TimeSpan.Zero, false) }));
        Assert.EndsWith(" -999", line, StringComparison.Ordinal);
    }
}
