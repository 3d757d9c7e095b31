using VatWatch.Daemon.Web.Settings;
using VatWatch.Daemon.Wiring;
using VatWatch.Testing;
using VatWatch.Vats.Configuration;

namespace VatWatch.Daemon.Tests.Web.Settings;

public sealed class SettingsViewTests
{
    [Fact]
    public void What_the_sample_says_and_what_is_default_are_told_apart_in_words_and_grouped_by_what_they_do()
    {
        var faults = new ConfigFaults();
        var configuration = DaemonConfiguration.Read(Path.Combine(SourceTree.Root, "config/vatwatch.json"), faults);
        Assert.Empty(faults.All);

        var view = SettingsView.Of(new("vatwatch.json", "data", configuration!.Settings));

        Assert.Equal(
            ["This place and its record", "Madder Lane vat", "Madder Lane vat: probes", "Connections", "Pages", "Topics"], view.Groups.Select(group => group.Heading));
        var vat = view.Groups[1];
        Assert.Contains(("Never above", "120 °F"), vat.Rows);
        Assert.Contains(("Weak when ORP is above", "−660 mV"), vat.Rows);
        Assert.Contains(("Fibre", "wool and silk (protein)"), vat.Rows);
        Assert.Contains(("Height above the sea", "0 m"), vat.Usual);
        Assert.Contains(("Units", "°F, gallons, pounds and ounces"), view.Groups[0].Rows);
        Assert.Contains(("liquor-ph", "pH, bus demo, read as simulated, every 30 s"), view.Groups[2].Rows);
        Assert.DoesNotContain(view.Groups.SelectMany(group => group.Rows.Concat(group.Usual)), row => row.Label.Contains('[', StringComparison.Ordinal) || row.Label.Contains('.', StringComparison.Ordinal));
        var store = configuration.Settings.Where(one => one.Path.StartsWith("store.", StringComparison.Ordinal) || one.Path.StartsWith("web.", StringComparison.Ordinal)).ToList();
        Assert.Contains(new("web.listen", "http://127.0.0.1:8080", true), store);
        Assert.Contains(new("web.passwordFile", ConfigLedger.NotSet, false), store);
        Assert.Contains(configuration.Settings, one => !one.IsFromFile && one.Value != ConfigLedger.NotSet);
    }

    [Fact]
    public void Contacts_are_listed_by_name()
    {
        var view = SettingsView.Of(new("vatwatch.json", "data",
        [
            new("contacts[0].id", "night-phone", true), new("contacts[0].name", "Phone by the bed", true), new("contacts[0].url", "https://hooks.example/…", true), new("contacts[1].id", "office", true),
        ]));

        Assert.Equal([("night-phone", "Phone by the bed"), ("office", "office")], view.Contacts);
        Assert.Equal([("Phone by the bed", "https://hooks.example/…")], Assert.Single(view.Groups).Rows);
    }
}
