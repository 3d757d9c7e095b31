using System.Text.Json;
using VatWatch.Store;
using VatWatch.Vats.Configuration;

namespace VatWatch.Tests.Store;

public sealed class StoreOptionsTests
{
    [Fact]
    public void An_absent_section_and_an_empty_one_give_the_defaults()
    {
        Assert.Equal(new StoreOptions(), StoreOptions.Read(null));
        Assert.Equal(new StoreOptions(), Read("{}").Options);
    }

    [Fact]
    public void Keys_are_read()
    {
        var (options, faults) = Read("""{ "commitInterval": "30 s", "bufferedMeasurements": 20000, "writeTimeout": "5 s", "keepReadings": "100 d", "sizeLimitMegabytes": 500 }""");
        Assert.Empty(faults);
        Assert.Equal(
            new StoreOptions { CommitInterval = TimeSpan.FromSeconds(30), BufferedMeasurements = 20_000, WriteTimeout = TimeSpan.FromSeconds(5), KeepReadings = TimeSpan.FromDays(100), SizeLimitMegabytes = 500 },
            options);
    }

    [Theory]
    [InlineData("""{ "commitInterval": "2 min" }""", "store.commitInterval")]
    [InlineData("""{ "commitInterval": 10 }""", "store.commitInterval")]
    [InlineData("""{ "keepReadings": "6 d" }""", "store.keepReadings")]
    [InlineData("""{ "bufferedMeasurements": 9 }""", "store.bufferedMeasurements")]
    [InlineData("""{ "comitInterval": "10 s" }""", "store.comitInterval")]
    public void A_value_out_of_range_and_an_unknown_key_are_faults(string json, string path) => Assert.Equal(path, Assert.Single(Read(json).Faults).Path);

    [Fact]
    public void The_key_of_the_former_archive_is_refused_with_what_to_use_instead()
    {
        var fault = Assert.Single(Read("""{ "archiveAfter": "400 d" }""").Faults);
        Assert.Equal("store.archiveAfter", fault.Path);
        Assert.Contains("keepReadings", fault.Wanted, StringComparison.Ordinal);
    }

    private static (StoreOptions Options, IReadOnlyList<ConfigFault> Faults) Read(string json)
    {
        var faults = new ConfigFaults();
        return (StoreOptions.Read(new ConfigNode(JsonDocument.Parse(json).RootElement, "store", faults)), faults.All);
    }
}
