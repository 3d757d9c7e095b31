using System.Text.Json;
using VatWatch.Alarms;
using VatWatch.Alarms.Rules;
using VatWatch.Vats.Configuration;

namespace VatWatch.Tests.Alarms.Rules;

public sealed class AlarmSettingsTests
{
    [Fact]
    public void Without_a_key_the_delays_of_the_design_hold()
    {
        var settings = AlarmSettings.Read(null);
        Assert.Equal(TimeSpan.FromSeconds(10), settings.For("overheat").OnDelay);
        Assert.Equal(AlarmPriority.Critical, settings.For("overheat").Priority);
        Assert.Equal(0.5, settings.For("overheat").Deadband);
        Assert.Null(settings.For("probe-silent").OnDelay);
        Assert.Equal(TimeSpan.FromMinutes(45), settings.ForecastWithin);
        Assert.InRange(settings.For("oxidised").OnDelay!.Value, TimeSpan.FromMinutes(15), TimeSpan.FromMinutes(30));
        Assert.Null(settings.ReadyBy);
    }

    [Fact]
    public void Every_key_of_an_alarm_is_read_with_its_unit()
    {
        var (settings, faults) = Read("""
            { "overheat": { "priority": "high", "onDelay": "20 s", "offDelay": "3 min", "deadband": "1 °F", "enabled": false, "repeat": "7 min",
                            "reAlarm": "1 h", "latch": true, "shelveAtMost": "10 min" },
              "redox-rising": { "deadband": "4 mV/h" }, "redox-weak": { "deadband": "15 mV" }, "alkali-low": { "deadband": 0.2 } }
            """);
        Assert.Empty(faults);
        var overheat = settings.For("overheat");
        Assert.Equal(AlarmPriority.High, overheat.Priority);
        Assert.Equal(TimeSpan.FromSeconds(20), overheat.OnDelay);
        Assert.Equal(TimeSpan.FromMinutes(3), overheat.OffDelay);
        Assert.Equal(5.0 / 9, overheat.Deadband, 9);
        Assert.False(overheat.Enabled);
        Assert.Equal(TimeSpan.FromMinutes(7), overheat.Repeat);
        Assert.Equal(TimeSpan.FromHours(1), overheat.ReAlarm);
        Assert.True(overheat.Latch);
        Assert.Equal(TimeSpan.FromMinutes(10), overheat.ShelveAtMost);
        Assert.Equal(4, settings.For("redox-rising").Deadband, 9);
        Assert.Equal(15, settings.For("redox-weak").Deadband, 9);
        Assert.Equal(0.2, settings.For("alkali-low").Deadband, 9);
    }

    [Fact]
    public void The_keys_of_single_alarms_are_read()
    {
        var (settings, faults) = Read("""
            { "overheat-forecast": { "within": "30 min" }, "cold": { "readyBy": "08:30", "readyFor": "2 h", "zone": "America/Chicago" },
              "probe-disagrees": { "temperature": "3.6 °F", "ph": 0.5, "orp": "40 mV" } }
            """);
        Assert.Empty(faults);
        Assert.Equal(TimeSpan.FromMinutes(30), settings.ForecastWithin);
        Assert.Equal(new TimeOnly(8, 30), settings.ReadyBy!.Time);
        Assert.Equal("America/Chicago", settings.ReadyBy.Zone.Id);
        Assert.Equal(2, settings.Disagreement.TemperatureK, 9);
        Assert.Equal(new(2, 0.5, 40), settings.Disagreement with { TemperatureK = 2 });
    }

    [Theory]
    [InlineData("""{ "overheated": {} }""", "alarms.overheated")]
    [InlineData("""{ "overheat": { "delay": "1 s" } }""", "alarms.overheat.delay")]
    [InlineData("""{ "overheat": { "onDelay": "25 h" } }""", "alarms.overheat.onDelay")]
    [InlineData("""{ "overheat": { "onDelay": 10 } }""", "alarms.overheat.onDelay")]
    [InlineData("""{ "overheat": { "onDelay": "-1 s" } }""", "alarms.overheat.onDelay")]
    [InlineData("""{ "overheat": { "deadband": 1 } }""", "alarms.overheat.deadband")]
    [InlineData("""{ "overheat": { "priority": "urgent" } }""", "alarms.overheat.priority")]
    [InlineData("""{ "overheat": { "enabled": "yes" } }""", "alarms.overheat.enabled")]
    [InlineData("""{ "overheat": { "repeat": "10 s" } }""", "alarms.overheat.repeat")]
    [InlineData("""{ "probe-silent": { "deadband": "1 °F" } }""", "alarms.probe-silent.deadband")]
    [InlineData("""{ "overheat": { "readyBy": "08:00" } }""", "alarms.overheat.readyBy")]
    [InlineData("""{ "cold": { "readyBy": "8 am" } }""", "alarms.cold.readyBy")]
    [InlineData("""{ "cold": { "readyBy": "08:00", "zone": "Mars/Olympus" } }""", "alarms.cold.zone")]
    [InlineData("""{ "overheat": true }""", "alarms.overheat")]
    public void What_is_wrong_is_a_fault_at_its_key(string json, string path) =>
        Assert.Contains(path, Read(json).Faults.Select(fault => fault.Path));

    [Fact]
    public void Alarms_of_the_daemon_have_their_own_keys()
    {
        Assert.Equal(AlarmPriority.High, AlarmSettings.ReadDaemon(null).For("store-fault").Priority);
        Assert.False(AlarmSettings.ReadDaemon(null).Knows("overheat"));
        Assert.Contains("alarms.store-fault", Read("""{ "store-fault": {} }""").Faults.Select(fault => fault.Path));
    }

    private static (AlarmSettings Settings, IReadOnlyList<ConfigFault> Faults) Read(string json)
    {
        var faults = new ConfigFaults();
        var settings = AlarmSettings.Read(new ConfigNode(JsonDocument.Parse(json).RootElement, "alarms", faults));
        return (settings, faults.All);
    }
}
