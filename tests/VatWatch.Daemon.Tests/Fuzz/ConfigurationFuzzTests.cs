using System.Text;
using VatWatch.Daemon.Tests.Wiring;
using VatWatch.Daemon.Wiring;
using VatWatch.Testing.Fuzz;
using VatWatch.Vats.Configuration;

namespace VatWatch.Daemon.Tests.Fuzz;

/// <summary>Every configuration that ships, mutated, through the whole reader.</summary>
public sealed class ConfigurationFuzzTests
{
    private const int Few = 1500;

    [Fact]
    public void Every_mutated_configuration_is_read_the_same_twice_or_told_in_short_lines()
    {
        using var samples = new SampleConfigurations();
        var real = SampleConfigurations.All.Append("tests/VatWatch.Daemon.Tests/Wiring/every-key.json").Select(path => samples.Open(path).ToJsonString()).ToList();
        Cases.Hold(
            Mutants.Of(real),
            Few,
            json =>
            {
                var (settings, faults) = Read(json);
                var (again, same) = Read(json);
                Assert.Equal(faults, same);
                Assert.Equal(settings, again);
                foreach (var fault in faults)
                {
                    Assert.InRange(fault.Length, 10, 3000);
                    Assert.DoesNotContain(fault, char.IsControl);
                    Assert.Contains("; wanted ", fault, StringComparison.Ordinal);
                    Assert.DoesNotContain("not-a-real", fault, StringComparison.Ordinal);
                }
            },
            json => json.Length > 6000 ? json[..6000] : json);
    }

    [Theory]
    [InlineData("\\u0000")]
    [InlineData("a\\u0000b")]
    [InlineData("/")]
    [InlineData("/etc/vatwatch/nothing\\n")]
    public void A_name_that_no_file_can_have_is_a_fault_wherever_a_file_is_named(string name)
    {
        // What only a copy or a mail needs does not keep the watch from starting; there a name is only looked at when it can be none.
        (string Place, bool IsNeeded)[] places =
        [
            ("mqtt.passwordFile", true), ("mqtt.caFile", true), ("mail.passwordFile", true), ("mail.caFile", false), ("influx.tokenFile", false), ("influx.caFile", false),
            ("web.passwordFile", true), ("web.viewerPasswordFile", true), ("web.tokenFile", true), ("web.certificateFile", true),
        ];
        foreach (var (place, _) in places.Where(one => one.IsNeeded || name.Contains('u', StringComparison.Ordinal)))
        {
            var (section, key) = (place.Split('.')[0], place.Split('.')[1]);
            var more = section switch
            {
                "mqtt" => "\"broker\": \"mqtts://broker\", \"user\": \"watch\"",
                "mail" => "\"server\": \"smtps://mail\", \"from\": \"vats@studio.example\", \"user\": \"vats\"",
                "influx" => "\"url\": \"https://server\", \"org\": \"studio\", \"bucket\": \"vats\"",
                _ => $"\"listen\": \"https://127.0.0.1:8443\"{(key == "certificateFile" ? ", \"keyFile\": \"key\"" : "")}",
            };
            var (_, faults) = Read($$"""{ "{{section}}": { {{more}}, "{{key}}": "{{name}}" }, "contacts": [ { "id": "dyer", "way": "mail", "address": "dyer@studio.example" } ] }""");
            Assert.True(faults.Any(fault => fault.StartsWith($"{place} is ", StringComparison.Ordinal)), $"{place}: {string.Join('\n', faults)}");
        }
    }

    private static (List<string> Settings, List<string> Faults) Read(string json)
    {
        var faults = new ConfigFaults();
        var settings = ConfigFile.Parse(Encoding.UTF8.GetBytes(json), faults) is { } root ? DaemonConfiguration.Read(root, "configuration").Settings : [];
        return ([.. settings.Select(one => one.ToString())], [.. faults.All.Select(fault => fault.ToString())]);
    }
}
