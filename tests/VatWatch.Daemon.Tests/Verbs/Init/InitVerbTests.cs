using System.CommandLine;
using VatWatch.Daemon.Verbs.Init;
using VatWatch.Daemon.Verbs.Terminal;
using VatWatch.Daemon.Wiring;
using VatWatch.Vats.Configuration;

namespace VatWatch.Daemon.Tests.Verbs.Init;

public sealed class InitVerbTests : IDisposable
{
    private const string Flags = "--site weld-yard|--vat|Madder Lane|--volume|150 L|--fibre protein|--reducer dithionite|--display si";
    private readonly string _folder = Directory.CreateTempSubdirectory("init-").FullName;

    private string File => Path.Combine(_folder, "first.json");

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    [Fact]
    public void A_person_who_answers_every_question_gets_a_configuration_that_says_so()
    {
        Plug("dev/serial/by-id/usb-meter", "sys/bus/w1/devices/28-0316a2797ac5", "dev/i2c-1");
        var (code, said, error) = Run("si\nweld-yard\nMadder Lane vat\n150 L\ncellulose\nfructose\ntemperature on 2\nph on 3\norp on 1\n\n");
        Assert.Equal((0, ""), (code, error));
        Assert.Contains("  1  serial port /dev/serial/by-id/usb-meter", said, StringComparison.Ordinal);
        Assert.Contains("passes `vatwatch check`", said, StringComparison.Ordinal);
        var watch = Load().Watch;
        var vat = Assert.Single(watch.Vats).Definition;
        Assert.Equal(("weld-yard", DisplayUnits.Si, "madder-lane-vat", 150.0, Fibre.Cellulose), (watch.Site, watch.Units, vat.Id.Value, vat.VolumeLitres, vat.Fibre));
        Assert.Equal(["onewire", "ads1115", "text-line"], vat.Probes.Select(probe => probe.Driver));
        Assert.Equal((10.5, 11.5), (vat.Ph!.Low, vat.Ph.High));
    }

    [Fact]
    public void What_the_kernel_shows_lines_and_devices_on_the_network_are_places_too()
    {
        Plug("sys/bus/iio/devices/iio:device0/in_temp_raw", "sys/bus/iio/devices/iio:device0/in_temp_scale", "sys/class/hwmon/hwmon0/temp1_input", "dev/gpiochip0");
        var (code, said, error) = Run(
            "si\nweld-yard\nMadder Lane vat\n150 L\ncellulose\nfructose\ntemperature on 1\nambient on 2\nlevel on 3\nheater on tcp:meter.example:1502\nheater-command on /dev/gpiochip0\nph on /dev/i2c-1 as i2c-text\n\n");
        Assert.Equal((0, ""), (code, error));
        Assert.Contains("  1  value of the kernel /sys/bus/iio/devices/iio:device0/in_temp_raw", said, StringComparison.Ordinal);
        Assert.Contains("  3  lines of /dev/gpiochip0", said, StringComparison.Ordinal);
        Assert.DoesNotContain("in_temp_scale", said, StringComparison.Ordinal);
        var watch = Load().Watch;
        Assert.Equal(["kernel-file", "kernel-file", "contact", "modbus-tcp", "contact", "i2c-text"], Assert.Single(watch.Vats).Definition.Probes.Select(probe => probe.Driver));
        Assert.Equal(["kernel", "gpio-0", "network-1", "i2c-1"], watch.Buses.Select(bus => bus.Id.Value));
    }

    [Fact]
    public void Bad_answers_are_asked_again_with_what_is_wanted()
    {
        var (code, said, _) = Run("metric\nus\nWeld Yard\nweld-yard\n???\nRed vat\n40\n40 gal\nnylon\nprotein\nsoap\ndithionite\nheat on 1\ntemperature on /dev/serial/by-id/x as onewire\nlevel on /dev/i2c-1\n\n");
        Assert.Equal(0, code);
        Assert.Contains("'metric' will not do; wanted one of us, si.", said, StringComparison.Ordinal);
        Assert.Contains("'40' will not do; wanted a volume with its unit", said, StringComparison.Ordinal);
        Assert.Contains("'heat' is nothing that a probe measures", said, StringComparison.Ordinal);
        Assert.Contains("'onewire' is no driver for serial port", said, StringComparison.Ordinal);
        Assert.Contains("'level on /dev/i2c-1' will not do", said, StringComparison.Ordinal);
        Assert.Equal(120, Load().Watch.Speed);
    }

    [Fact]
    public void What_a_dyer_says_is_understood_and_said_back()
    {
        var (code, said, error) = Run("us\nweld-yard\nRed vat\n40,5 gallons\nwool\nDithionite\n\n");
        Assert.Equal((0, ""), (code, error));
        Assert.Contains("'wool' is taken as protein.", said, StringComparison.Ordinal);
        Assert.Contains("'40,5 gallons' is taken as 40.5 gallons.", said, StringComparison.Ordinal);
        Assert.DoesNotContain("'us' is taken", said, StringComparison.Ordinal);
        var vat = Assert.Single(Load().Watch.Vats).Definition;
        Assert.Equal(Fibre.Protein, vat.Fibre);
        Assert.Equal(40.5 * DisplayUnits.LitresPerUsGallon, vat.VolumeLitres, 1e-6);
    }

    [Theory]
    [InlineData("")]
    [InlineData("us\nweld-yard\nRed vat\n")]
    [InlineData("us\nweld-yard\nRed vat\n40 gal\nprotein\ndithionite\ntemperature on simulated\n")]
    public void Whoever_leaves_in_the_middle_has_written_nothing(string typed)
    {
        var (code, _, error) = Run(typed);
        Assert.Equal(1, code);
        Assert.Contains("nothing was written", error, StringComparison.Ordinal);
        Assert.False(System.IO.File.Exists(File));
    }

    [Fact]
    public void A_script_answers_by_flags_alone()
    {
        var (code, _, error) = Run(null, Flags, "--probe|temperature on /dev/serial/by-id/usb-meter as modbus-rtu", "--probe|ambient on 28-0316a2797ac5");
        Assert.Equal((0, ""), (code, error));
        Assert.Equal(["modbus-rtu", "onewire"], Assert.Single(Load().Watch.Vats).Definition.Probes.Select(probe => probe.Driver));
    }

    [Theory]
    [InlineData("--site weld-yard", "--vat is missing and nobody is at the terminal")]
    [InlineData(Flags + "|--probe|warmth", "'warmth' is no probe; wanted MEASURES on PLACE")]
    [InlineData("--site Weld", "--site is 'Weld'; wanted a name of lower-case letters")]
    public void A_script_that_says_too_little_or_what_will_not_do_is_told(string flags, string sentence)
    {
        var (code, _, error) = Run(null, flags);
        Assert.Equal(64, code);
        Assert.Contains(sentence, error, StringComparison.Ordinal);
        Assert.False(System.IO.File.Exists(File));
    }

    [Fact]
    public void A_file_that_is_there_is_never_overwritten()
    {
        System.IO.File.WriteAllText(File, "mine");
        var (code, _, error) = Run(null, Flags);
        Assert.Equal(1, code);
        Assert.Contains("is not overwritten", error, StringComparison.Ordinal);
        Assert.Equal("mine", System.IO.File.ReadAllText(File));
    }

    [Fact]
    public void Without_lasting_names_the_passing_ones_are_offered_and_said_to_be_such()
    {
        Plug("dev/ttyUSB1", "dev/ttyACM0", "dev/vatwatch/port-usb-0_1_2", "dev/ttyS0");
        var (code, said, error) = Run("si\nweld-yard\nRed vat\n150 L\ncellulose\nfructose\ntemperature on 2\nph on 1\n\n");
        Assert.Equal((0, ""), (code, error));
        Assert.Contains("  1  serial port /dev/vatwatch/port-usb-0_1_2\n  2  serial port /dev/ttyUSB1 (a name that can change)\n  3  serial port /dev/ttyACM0 (a name that can change)\n", said, StringComparison.Ordinal);
        Assert.DoesNotContain("ttyS0", said, StringComparison.Ordinal);
        Assert.Contains("/dev/ttyUSB1 is a name that can change at the next start", said, StringComparison.Ordinal);
    }

    [Fact]
    public void With_lasting_names_no_other_is_offered()
    {
        Plug("dev/serial/by-id/usb-meter", "dev/ttyUSB0", "dev/vatwatch/port-usb-0_1_2");
        var (_, said, _) = Run("si\nweld-yard\nRed vat\n150 L\ncellulose\nfructose\ntemperature on 1\n\n");
        Assert.Contains("  1  serial port /dev/serial/by-id/usb-meter\n", said, StringComparison.Ordinal);
        Assert.DoesNotContain("can change", said, StringComparison.Ordinal);
        Assert.DoesNotContain("  2  ", said, StringComparison.Ordinal);
    }

    [Fact]
    public void A_device_on_SPI_is_offered_and_read_as_a_platinum_thermometer()
    {
        Plug("dev/spidev0.1", "dev/spidev");
        var (code, said, _) = Run("si\nweld-yard\nRed vat\n150 L\ncellulose\nfructose\ntemperature on 1\nlevel on /dev/spidev0.x\n\n");
        Assert.Equal(0, code);
        Assert.Contains("  1  SPI device /dev/spidev0.1\n", said, StringComparison.Ordinal);
        Assert.Contains("'/dev/spidev0.x' is no place", said, StringComparison.Ordinal);
        Assert.Equal("max31865", Assert.Single(Load().Watch.Vats[0].Definition.Probes).Driver);
        Assert.Contains("\"chipSelect\": 1", System.IO.File.ReadAllText(File), StringComparison.Ordinal);
    }

    [Fact]
    public void Beside_the_package_it_names_the_packages_store_and_the_steps_with_its_service()
    {
        Plug("var/lib/vatwatch", "dev/ttyACM0");
        var (_, said, _) = Run(null, Flags, "--probe|temperature on /dev/ttyACM0");
        Assert.Equal("/var/lib/vatwatch", Load().Watch.DataFolder);
        Assert.Contains("sudo systemctl stop vatwatch", said, StringComparison.Ordinal);
        Assert.Contains($"sudo install -m 644 {File} /etc/vatwatch/vatwatch.json", said, StringComparison.Ordinal);
        Assert.Contains("sudo -u vatwatch vatwatch read", said, StringComparison.Ordinal);
        Assert.DoesNotContain("vatwatch run", said, StringComparison.Ordinal);
    }

    [Fact]
    public void A_vat_to_practise_on_keeps_out_of_the_store_of_the_real_one()
    {
        Plug("var/lib/vatwatch");
        Run(null, Flags);
        Assert.Equal("/var/lib/vatwatch/practice", Load().Watch.DataFolder);
    }

    [Fact]
    public void Every_driver_fibre_and_agent_gives_what_passes_its_check()
    {
        string[] probes =
        [
            "temperature on /dev/ttyS1", "ph on /dev/ttyS1", "orp on /dev/ttyS1", "heater on /dev/ttyS1", "level on /dev/ttyS1 as modbus-rtu", "ph on /dev/ttyS2 as modbus-rtu", "temperature on /dev/i2c-1",
            "temperature on /dev/i2c-1 as mcp960x", "temperature on /dev/i2c-1 as ads1115", "ph on /dev/i2c-1", "orp on /dev/i2c-2 as ufire-ise", "ambient on 28-0316a2797ac5", "temperature on /dev/spidev0.0", "temperature on simulated",
        ];
        foreach (var fibre in (string[])["protein", "cellulose"])
        {
            foreach (var reducer in (string[])["thiourea-dioxide", "dithionite", "fructose", "fermentation"])
            {
                foreach (var display in (string[])["us", "si"])
                {
                    var (code, _, error) = Run(null, [$"--site a|--vat|Cuve \"bleue\" \\ 1|--volume|40 gal|--fibre {fibre}|--reducer {reducer}|--display {display}", .. probes.Select(probe => $"--probe|{probe}")]);
                    Assert.Equal((0, ""), (code, error));
                    Assert.Equal("cuve-bleue-1", Load().Watch.Vats[0].Definition.Id.Value);
                    System.IO.File.Delete(File);
                }
            }
        }
    }

    private void Plug(params string[] places)
    {
        foreach (var place in places)
        {
            Directory.CreateDirectory(Path.Combine(_folder, "root", place));
        }
    }

    private (int Code, string Out, string Error) Run(string? typed, params string[] flags)
    {
        using var output = new StringWriter();
        using var error = new StringWriter();
        using var person = typed is null ? null : new StringReader(typed);
        var root = new RootCommand { InitVerb.Create(new VerbConsole(output, error, person), Path.Combine(_folder, "root")) };
        string[] words = [.. flags.SelectMany(flag => flag.Split('|')).SelectMany(word => word.StartsWith("--", StringComparison.Ordinal) ? word.Split(' ') : [word])];
        return (root.Parse(["init", "--out", File, .. words]).Invoke(), output.ToString(), error.ToString());
    }

    private DaemonConfiguration Load()
    {
        var faults = new ConfigFaults();
        var configuration = DaemonConfiguration.Read(File, faults);
        Assert.Empty(faults.All);
        return configuration!;
    }
}
