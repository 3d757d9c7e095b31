using VatWatch.Daemon.Wiring;
using VatWatch.Testing;
using VatWatch.Vats.Configuration;

namespace VatWatch.Daemon.Tests.HardwareNotes;

/// <summary>The folders of hardware-notes: what a reader finds in each, and that the configurations are good ones.</summary>
public sealed class HardwareNotesTests
{
    private static readonly string[] Sections = ["## Wiring", "## Isolation and safety", "## Settings", "## When `vatwatch read` says"];

    public static TheoryData<string> Families => [.. Directory.GetDirectories(SourceTree.At("hardware-notes")).Select(folder => Path.GetFileName(folder))];

    [Theory]
    [MemberData(nameof(Families))]
    public void The_configuration_is_good(string family)
    {
        var (configuration, faults) = Read(family);
        Assert.Empty(faults.All.Select(fault => fault.ToString()));
        Assert.NotEmpty(configuration!.Watch.Vats.SelectMany(vat => vat.Definition.Probes));
    }

    [Theory]
    [MemberData(nameof(Families))]
    public void The_page_has_every_section_and_there_are_captures(string family)
    {
        var page = File.ReadAllLines(SourceTree.At("hardware-notes", family, "README.md"));
        Assert.All(Sections, section => Assert.Contains(section, page));
        Assert.NotEmpty(Directory.GetFiles(SourceTree.At("hardware-notes", family, "captures"), "*", SearchOption.AllDirectories));
    }

    [Theory]
    [MemberData(nameof(Families))]
    public void The_overview_leads_to_every_family(string family) =>
        Assert.Contains($"]({family}/README.md)", File.ReadAllText(SourceTree.At("hardware-notes", "README.md")), StringComparison.Ordinal);

    [Fact]
    public void Every_driver_of_a_real_probe_has_a_configuration_that_uses_it()
    {
        var used = Families.SelectMany(family => Read(family.Data).Configuration!.Watch.Vats).SelectMany(vat => vat.Definition.Probes)
            .Select(probe => probe.Driver).Distinct().Order();
        Assert.Equal(Catalog.Everything.Drivers.Keys.Where(word => word != "simulated").Order(), used);
    }

    private static (DaemonConfiguration? Configuration, ConfigFaults Faults) Read(string family)
    {
        var faults = new ConfigFaults();
        return (DaemonConfiguration.Read(SourceTree.At("hardware-notes", family, "config.json"), faults), faults);
    }
}
