using VatWatch.Daemon.Verbs;
using VatWatch.Daemon.Wiring;
using VatWatch.Testing;

namespace VatWatch.Daemon.Tests.Verbs;

public sealed class NotesOfConfigurationTests
{
    [Fact]
    public void A_configuration_leads_to_the_pages_of_its_drivers_and_of_what_is_measured()
    {
        Assert.Equal(
            ["heaters.md", "onewire/README.md", "i2c-text/README.md", "contacts/README.md", "electrodes.md", "level.md"],
            NotesOfConfiguration.Pages([Probe("onewire", Quantity.Temperature), Probe("onewire", Quantity.Ambient), Probe("i2c-text", Quantity.Ph), Probe("contact", Quantity.Level)]));
        Assert.Empty(NotesOfConfiguration.Pages([Probe("simulated", Quantity.Temperature)]));
    }

    [Fact]
    public void Every_page_is_there() => Assert.All(
        NotesOfConfiguration.Pages(Catalog.Everything.Drivers.Keys.SelectMany(driver => Enum.GetValues<Quantity>().Select(quantity => Probe(driver, quantity)))),
        page => Assert.True(File.Exists(SourceTree.At("hardware-notes", page)), page));

    private static ProbeDefinition Probe(string driver, Quantity quantity) => SampleVats.Probe("madder-lane", driver, quantity) with { Driver = driver };
}
