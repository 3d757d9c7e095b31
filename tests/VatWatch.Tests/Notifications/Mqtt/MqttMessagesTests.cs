using System.Buffers;
using System.Text;
using VatWatch.Alarms;
using VatWatch.Measurements;
using VatWatch.Notifications;
using VatWatch.Notifications.Mqtt;

namespace VatWatch.Tests.Notifications.Mqtt;

/// <summary>
/// Payloads to the letter. SenML: RFC 8428 §4 (fields; exactly one value in a record), §12.1 (Cel, pH, /) and RFC 8798 §3 (mV). The names of
/// an alarm's fields are those that tools rely on; config/asyncapi.yaml lists them.
/// </summary>
public sealed class MqttMessagesTests
{
    private readonly MqttMessages _messages = new(new("hill-studio"), DisplayUnits.Us);

    [Theory]
    [InlineData(Quantity.Temperature, 46.10000000000001, """{"bn":"vatwatch/hill-studio/madder-lane/","bt":1772403300.25,"n":"p","u":"Cel","v":46.1}""")]
    [InlineData(Quantity.Ambient, -3.5, """{"bn":"vatwatch/hill-studio/madder-lane/","bt":1772403300.25,"n":"p","u":"Cel","v":-3.5}""")]
    [InlineData(Quantity.Ph, 10.02, """{"bn":"vatwatch/hill-studio/madder-lane/","bt":1772403300.25,"n":"p","u":"pH","v":10.02}""")]
    [InlineData(Quantity.Orp, -712.5, """{"bn":"vatwatch/hill-studio/madder-lane/","bt":1772403300.25,"n":"p","u":"mV","v":-712.5}""")]
    [InlineData(Quantity.Level, 80.0, """{"bn":"vatwatch/hill-studio/madder-lane/","bt":1772403300.25,"n":"p","u":"/","v":0.8}""")]
    [InlineData(Quantity.Heater, 1.0, """{"bn":"vatwatch/hill-studio/madder-lane/","bt":1772403300.25,"n":"p","vb":true}""")]
    [InlineData(Quantity.Heater, 0.0, """{"bn":"vatwatch/hill-studio/madder-lane/","bt":1772403300.25,"n":"p","vb":false}""")]
    public void A_good_measurement_is_a_value_with_its_unit_and_its_quality(Quantity measures, double value, string record)
    {
        var measurement = new Measurement(new("madder-lane"), new("p"), measures, RunningLink.At(0.25), value, value, Quality.Good, null, null);
        Assert.Equal($$"""[{{record}},{"n":"p/quality","vs":"good"}]""", Text(_messages.Of(measurement).Payload));
    }

    [Fact]
    public void A_missing_measurement_has_no_number_at_all()
    {
        var message = _messages.Of(RunningLink.Liquor(null));
        Assert.Equal(
            """[{"bn":"vatwatch/hill-studio/madder-lane/","bt":1772403300,"n":"liquor/quality","vs":"missing"},{"n":"liquor/reason","vs":"no reply within 2 s"}]""",
            Text(message.Payload));
        Assert.Equal("vatwatch/hill-studio/madder-lane/measurement/liquor", message.Topic);
        Assert.Equal("application/senml+json", message.ContentType); // RFC 8428 §12.3.1
    }

    [Theory]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    public void What_is_no_number_is_never_written_as_one(double value)
    {
        var measurement = RunningLink.Liquor(1) with { Value = value, Quality = Quality.Fault, Reason = "not a number" };
        Assert.DoesNotContain("\"v\"", Text(_messages.Of(measurement).Payload), StringComparison.Ordinal);
    }

    [Fact]
    public void An_untrusted_clock_is_told_with_the_measurement()
    {
        var measurement = RunningLink.Liquor(46) with { Stamp = RunningLink.At(0) with { UtcTrusted = false } };
        Assert.EndsWith(""",{"n":"liquor/clock-trusted","vb":false}]""", Text(_messages.Of(measurement).Payload), StringComparison.Ordinal);
    }

    [Fact]
    public void An_alarm_has_all_its_fields_with_nulls_and_a_readable_degree_sign()
    {
        var message = _messages.Of(RunningLink.Overheat(AlarmState.ReturnedUnacknowledged));
        Assert.Equal(
            """{"alarm":"overheat","vat":"madder-lane","state":"returned-unacknowledged","priority":"critical","since":"2026-03-01T22:15:00.000Z","value":121,"limit":120,"unit":"°F","text":"Madder Lane vat: 121.0 °F, limit 120 °F.","action":"Switch the heater off at the plug.","acknowledgedBy":null,"acknowledgedAt":null,"setAsideBy":null,"setAsideBecause":null,"shelvedUntil":null,"onDisk":true}""",
            Text(message.Payload));
        Assert.Equal("vatwatch/hill-studio/madder-lane/alarm/overheat", message.Topic);
    }

    [Fact]
    public void An_alarm_without_a_number_says_so_with_nulls_and_shows_who_acknowledged_it()
    {
        var status = RunningLink.Overheat(AlarmState.Acknowledged) with
        {
            Alarm = new("probe-silent.liquor"),
            Value = null,
            Limit = null,
            Unit = "",
            AcknowledgedBy = "Ada",
            AcknowledgedAt = RunningLink.At(61.5).Utc,
        };
        var message = _messages.Of(status);
        Assert.Contains("\"value\":null,\"limit\":null,\"unit\":null", Text(message.Payload), StringComparison.Ordinal);
        Assert.Contains("\"acknowledgedBy\":\"Ada\",\"acknowledgedAt\":\"2026-03-01T22:16:01.500Z\",", Text(message.Payload), StringComparison.Ordinal);
        Assert.Equal("vatwatch/hill-studio/madder-lane/alarm/probe-silent.liquor", message.Topic);
    }

    [Fact]
    public void A_condition_has_its_word_reasons_numbers_and_forecasts()
    {
        Assert.Equal(
            """{"vat":"madder-lane","time":"2026-03-01T22:15:00.000Z","clockTrusted":true,"state":"warming","reasons":["The liquor is at 95.0 °F and rising."],"temperatureC":35,"temperatureRateKPerHour":3.2,"ph":null,"orpMillivolts":null,"orpRateMillivoltsPerHour":null,"timeToBand":{"earlyMinutes":40,"middleMinutes":52,"lateMinutes":null},"timeToLimit":null,"noTimeToBand":null,"noTimeToLimit":null,"warmUp":null,"figures":{"heat":null,"margin":null,"fromGoodDays":null,"recoveries":[],"diagnoses":[]}}""",
            Text(_messages.Of(RunningLink.Warming(35)).Payload));
    }

    [Fact]
    public void A_notification_says_what_is_wrong_then_what_to_do_then_where_to_look_and_after_the_return_only_the_first()
    {
        var alarm = SampleNotifications.TooHot();
        Assert.Equal(
            "Madder Lane vat: 121.0 °F, limit 120 °F. Switch the heater off at the plug. https://vats.example/vats/madder-lane/alarms/overheat",
            Text(_messages.Of(alarm, SampleNotifications.Pages.Of(alarm)).Payload));
        Assert.Equal("Madder Lane vat: 121.0 °F, limit 120 °F.", Text(_messages.Of(SampleNotifications.TooHot(state: AlarmState.ReturnedUnacknowledged)).Payload));
        Assert.Equal("https://vats.example/alarms", SampleNotifications.Pages.Of(alarm with { Document = null }));
        Assert.Null(new AlarmPages(null).Of(alarm));
    }

    private static string Text(ReadOnlySequence<byte> payload) => Encoding.UTF8.GetString(payload.ToArray());
}
