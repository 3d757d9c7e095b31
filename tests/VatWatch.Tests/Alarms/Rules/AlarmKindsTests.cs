using System.Reflection;
using VatWatch.Alarms;
using VatWatch.Alarms.Rules;
using VatWatch.Testing;

namespace VatWatch.Tests.Alarms.Rules;

/// <summary>Every alarm has its record of rationalisation, and its sentence names the vat and speaks the dyer's units.</summary>
public sealed class AlarmKindsTests
{
    private static readonly VatDefinition Vat = WatchedVat.MadderLane(
        WatchedVat.Probe("liquor", Quantity.Temperature), WatchedVat.Probe("second", Quantity.Temperature), WatchedVat.Probe("redox", Quantity.Orp), WatchedVat.Probe("alkali", Quantity.Ph));

    private static readonly AlarmSettings Settings =
        AlarmSettings.Default with { ReadyBy = new(new(8, 0), TimeSpan.FromHours(4), TimeZoneInfo.Utc) };

    [Fact]
    public void Every_alarm_of_the_design_is_there()
    {
        string[] ofVats =
        [
            "alkali-high", "alkali-low", "cold", "heater-due", "heating-fault", "overheat", "overheat-forecast", "oxidised", "probe-disagrees", "probe-fault", "probe-silent", "ready-late", "redox-rising", "redox-weak", "warming-fault",
        ];
        Assert.Equal(ofVats, Rules().Select(rule => rule.Name.Kind).Distinct().Order(StringComparer.Ordinal));
        Assert.Equal(
            ["broker-lost", "bus-lost", "calibration-due", "clock-untrusted", "contact-unreachable", "pages-lost", "server-behind", "stage-restarted", "store-fault", "watch-silent"],
            AlarmKinds.OfDaemon.Select(kind => kind.Word).Order(StringComparer.Ordinal));
    }

    [Fact]
    public void Each_says_cause_consequence_action_and_time_in_short_sentences()
    {
        var all = Rules().Select(rule => (rule.Name.Value, rule.Rationale))
            .Concat(AlarmKinds.OfDaemon.Select(kind => (kind.Word, kind.Rationale!)));
        Assert.All(all, one =>
        {
            foreach (var sentence in new[] { one.Item2.Cause, one.Item2.Consequence, one.Item2.Action })
            {
                Assert.Matches("^[A-Z].{15,220}[.]$", sentence);
            }

            Assert.Matches("^[a-z0-9].{3,60}[^.]$", one.Item2.TimeToRespond);
        });
    }

    [Fact]
    public void Each_sentence_names_the_vat_and_those_about_a_probe_the_probe()
    {
        Assert.All(Rules(), rule =>
        {
            foreach (var stands in new[] { true, false })
            {
                var text = rule.Tell(default, stands).In(DisplayUnits.Us);
                Assert.Contains("Madder Lane vat", text, StringComparison.Ordinal);
                Assert.EndsWith(".", text, StringComparison.Ordinal);
            }

            if (rule.Name.Kind is "probe-silent" or "probe-fault")
            {
                Assert.Contains($"probe {rule.Name.Value.Split('.')[1]} (", rule.Tell(default, stands: true).In(DisplayUnits.Us), StringComparison.Ordinal);
            }
        });
    }

    [Theory]
    [InlineData("us", "°F", "°C")]
    [InlineData("si", "°C", "°F")]
    public void Temperatures_are_told_in_the_dyers_unit_only(string display, string shown, string other)
    {
        var units = display == "us" ? DisplayUnits.Us : DisplayUnits.Si;
        var vat = new WatchedVat(Settings, Vat);
        vat.Condition = vat.Ready() with { TemperatureC = 50, TimeToLimit = new(TimeSpan.FromMinutes(5), TimeSpan.FromMinutes(6), null), TemperatureRateKPerHour = 9 };
        vat.Pass(700, it =>
        {
            it.Measure("liquor", 50);
            it.Measure("second", 47);
        });
        foreach (var alarm in new[] { "overheat", "overheat-forecast", "probe-disagrees.temperature" })
        {
            Assert.Contains(shown, vat.Status(alarm).Text.In(units), StringComparison.Ordinal);
            Assert.DoesNotContain(other, vat.Status(alarm).Text.In(units), StringComparison.Ordinal);
        }
    }

    [Fact]
    public void Priorities_can_be_set_for_each_vat()
    {
        foreach (var kind in AlarmKinds.OfVats)
        {
            var settings = Settings.With(kind.Word, rule => rule with { Priority = AlarmPriority.Low }) with { ReadyBy = Settings.ReadyBy };
            var evidence = new VatEvidence(Vat, settings);
            Assert.All(
                kind.RulesFor(new(Vat, settings)),
                rule => Assert.Equal(AlarmPriority.Low, rule.Evaluate(evidence).Priority));
        }
    }

    [Fact]
    public void Every_kind_has_its_row_in_the_table_with_its_delays()
    {
        var rows = File.ReadLines(SourceTree.At("src", "VatWatch", "Alarms", "ALARMS.md"))
            .Select(line => line.Split('|', StringSplitOptions.TrimEntries)).Where(cells => cells.Length == 8 && cells[1].StartsWith('`'))
            .SelectMany(cells => cells[1].Split(',', StringSplitOptions.TrimEntries).Select(word => (Word: word.Trim('`').Split('.')[0], On: cells[2], Off: cells[3], Shelf: cells[6])))
            .ToDictionary(row => row.Word);
        var kinds = AlarmKinds.OfVats.Concat(AlarmKinds.OfDaemon).ToList();
        Assert.Equal(kinds.Select(kind => kind.Word).Order(StringComparer.Ordinal), rows.Keys.Order(StringComparer.Ordinal));
        Assert.All(kinds, kind =>
        {
            var row = rows[kind.Word];
            Assert.Equal(kind.Defaults.OnDelay is { } on ? Short(on) : "3 sample periods, at least 15 s", row.On.Split(" (")[0]);
            Assert.Equal(Short(kind.Defaults.OffDelay), row.Off);
            Assert.Equal(Short(kind.Defaults.ShelveAtMost), row.Shelf);
        });
    }

    [Fact]
    public void Every_rule_and_every_alarm_class_is_listed()
    {
        var listed = AlarmKinds.OfVats.Concat(AlarmKinds.OfDaemon).ToHashSet();
        var classes = typeof(AlarmKind).Assembly.GetTypes().Select(type => type.GetProperty("Kind", BindingFlags.Static | BindingFlags.Public | BindingFlags.NonPublic))
            .Where(property => property?.PropertyType == typeof(AlarmKind)).Select(property => (AlarmKind)property!.GetValue(null)!).ToList();
        Assert.Equal(listed.Count, classes.Count);
        Assert.All(classes, kind => Assert.Contains(kind, listed));
    }

    private static string Short(TimeSpan time) => time switch
    {
        { TotalSeconds: < 60 } => $"{time.TotalSeconds:0} s",
        { TotalMinutes: < 60 } => $"{time.TotalMinutes:0} min",
        _ => $"{time.TotalHours:0} h",
    };

    private static IEnumerable<IAlarmRule> Rules() => AlarmKinds.OfVats.SelectMany(kind => kind.RulesFor(new(Vat, Settings)));
}
