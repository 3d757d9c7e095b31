using VatWatch.Daemon.Wiring;
using VatWatch.Testing;
using VatWatch.Vats.Configuration;

namespace VatWatch.Daemon.Tests.Wiring;

/// <summary>Files that a configuration names lie beside it, wherever the daemon was started: a service is started in another folder than its user's.</summary>
public sealed class NamedFilesTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("named-").FullName;

    private string Config => Path.Combine(_folder, "vatwatch.json");

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    [Fact]
    public void Their_names_start_from_the_folder_of_the_configuration()
    {
        WriteSecrets();
        var faults = Read("");
        Assert.Empty(faults.All.Select(fault => fault.ToString()));
        Assert.Equal(Path.Combine(_folder, "mqtt-password"), _read!.Mqtt.PasswordFile);
        Assert.Equal(Path.Combine(_folder, "ca.pem"), _read.Mqtt.CaFile);
        Assert.Equal(Path.Combine(_folder, "influx-token"), _read.Influx!.TokenFile);
        Assert.Equal(Path.Combine(_folder, "mail-password"), _read.Contacts.Mail!.PasswordFile);
    }

    [Fact]
    public void One_that_is_missing_is_told_with_the_path_where_it_was_looked_for()
    {
        var faults = Read(""", "web": { "passwordFile": "operators" }""");
        Assert.Contains(faults.All, fault => fault.Path == "web.passwordFile" && fault.Seen.Contains($"there is no file {_folder}/operators", StringComparison.Ordinal));
        Assert.Contains(faults.All, fault => fault.Path == "mqtt.passwordFile" && fault.Seen.Contains($"there is no file {_folder}/mqtt-password", StringComparison.Ordinal));
    }

    [Fact]
    public void The_store_lies_beside_the_configuration_too()
    {
        WriteSecrets();
        Read("");
        Assert.Equal(Path.Combine(_folder, "data"), _read!.Watch.DataFolder);
        Read(""", "data": "/srv/vats" """);
        Assert.Equal("/srv/vats", _read.Watch.DataFolder);
    }

    [Fact]
    public void A_store_in_the_current_folder_where_earlier_versions_kept_it_is_not_left_behind_unsaid()
    {
        WriteSecrets();
        var name = Path.GetFileName(_folder);
        var former = Directory.CreateDirectory(Path.Combine(Environment.CurrentDirectory, name)).FullName;
        try
        {
            Read($$""", "data": "{{name}}" """);
            Assert.Null(_read!.StoreLeftBehind());
            File.WriteAllText(Path.Combine(former, "vatwatch.db"), "");
            Assert.Contains(former, Assert.IsType<string>(_read.StoreLeftBehind()), StringComparison.Ordinal);
            Directory.CreateDirectory(_read.Watch.DataFolder);
            File.WriteAllText(Path.Combine(_read.Watch.DataFolder, "vatwatch.db"), "");
            Assert.Null(_read.StoreLeftBehind());
        }
        finally
        {
            Directory.Delete(former, recursive: true);
        }
    }

    [Fact]
    public void The_zone_of_the_site_is_that_of_everything_that_names_none()
    {
        WriteSecrets();
        var faults = Read(""", "timeZone": "America/Chicago", "alarms": {} """);
        Assert.Empty(faults.All.Select(fault => fault.ToString()));
        Assert.Equal("America/Chicago", _read!.Watch.Zone.Id);
        Assert.Equal("America/Chicago", _read.Contacts.Zone.Id);
        Assert.Equal("America/Chicago", _read.Watch.Vats[0].Alarms.Zone.Id);
        Assert.Contains(Read(""", "timeZone": "Mars/Olympus" """).All, fault => fault.Path == "timeZone" && fault.Wanted.Contains("time zone", StringComparison.Ordinal));
        Assert.Equal(TimeZoneInfo.Local.Id, Read("").Zone.Id);
    }

    private void WriteSecrets()
    {
        foreach (var name in (string[])["mqtt-password", "mail-password", "influx-token", "siren-secret"])
        {
            File.WriteAllText(Path.Combine(_folder, name), "word\n");
        }

        using var certificates = new StudioCertificates();
        File.Copy(certificates.Authority, Path.Combine(_folder, "ca.pem"));
    }

    private DaemonConfiguration? _read;

    private ConfigFaults Read(string more)
    {
        File.WriteAllText(Config, $$"""
            {
              "site": "hill-studio", "display": "us",
              "mqtt": { "broker": "mqtts://broker:8883", "user": "watch", "passwordFile": "mqtt-password", "caFile": "ca.pem" },
              "mail": { "server": "smtp://mail.example:587", "from": "vats@studio.example", "user": "vats", "passwordFile": "mail-password" },
              "contacts": [ { "id": "siren", "way": "webhook", "url": "https://hooks.example/vats", "secretFile": "siren-secret" } ],
              "influx": { "url": "https://server:8086", "org": "studio", "bucket": "vats", "tokenFile": "influx-token" },
              "buses": { "demo": { "kind": "simulation" } },
              "vats": [ { "id": "a", "name": "A", "volume": "40 gal", "fibre": "protein", "reducer": "dithionite",
                "temperature": { "low": "100 °F", "high": "118 °F", "limit": "120 °F" },
                "probes": [ { "id": "liquor", "measures": "temperature", "bus": "demo", "driver": "simulated", "every": "5 s" } ] } ]{{more}}
            }
            """);
        var faults = new ConfigFaults();
        _read = DaemonConfiguration.Read(Config, faults);
        return faults;
    }
}
