using VatWatch.Daemon.Wiring;
using VatWatch.Testing;
using VatWatch.Vats.Configuration;

namespace VatWatch.Daemon.Tests.Wiring;

/// <summary>The example of a watch that only listens for another, and what is wanted when it does not.</summary>
public sealed class SecondWatchTests : IDisposable
{
    private readonly string _file = Path.GetTempFileName();

    public void Dispose() => File.Delete(_file);

    [Fact]
    public void The_example_is_good_and_has_no_vats()
    {
        var faults = new ConfigFaults();
        var configuration = DaemonConfiguration.Read(SourceTree.At("config", "second-watch.json"), faults);
        Assert.Empty(faults.All);
        Assert.Empty(configuration!.Watch.Vats);
        var watch = Assert.Single(configuration.Watch.Watches);
        Assert.Equal(("hill-studio", "mqtt://broker.studio:1883", TimeSpan.FromMinutes(2)), (watch.Site, watch.Broker.Address, watch.SilentAfter));
        Assert.Equal("mqtt", Assert.Single(configuration.Contacts.Contacts).Id);
    }

    [Theory]
    [InlineData("""{ "site": "a" }""", "buses is missing", "vats is missing")]
    [InlineData("""{ "site": "a", "watches": [ { "site": "b" } ] }""", "watches[0].broker is missing")]
    [InlineData("""{ "site": "a", "watches": [ { "site": "b", "broker": "builtin" } ] }""", "watches[0].broker is \"builtin\"; wanted the broker of that watch")]
    [InlineData("""{ "site": "a", "watches": [ { "site": "b", "broker": "mqtt://x", "silentAfter": "10 s" } ] }""", "watches[0].silentAfter is \"10 s\"")]
    public void What_is_wrong_is_told_with_its_place(string text, params string[] told)
    {
        File.WriteAllText(_file, text);
        var faults = new ConfigFaults();
        DaemonConfiguration.Read(_file, faults);
        Assert.Equal(told.Length, faults.All.Count);
        Assert.All(told, sentence => Assert.Contains(faults.All, fault => fault.ToString().StartsWith(sentence, StringComparison.Ordinal)));
    }
}
