using VatWatch.Probes;
using VatWatch.Probes.Kernel;
using VatWatch.Tests.Probes.I2c;
using VatWatch.Vats.Configuration;

namespace VatWatch.Tests.Probes.Kernel;

/// <summary>
/// Files as the kernel shows them. Rules: its Documentation/ABI/testing/sysfs-bus-iio, value = (raw + offset) × scale in milli °C, mV, mW; and
/// Documentation/hwmon/sysfs-interface: m°C, mV, µW, and temp*_fault.
/// </summary>
public sealed class KernelFileProbeTests : IDisposable
{
    private readonly string _root = Directory.CreateTempSubdirectory("vatwatch-kernel-").FullName;

    public void Dispose() => Directory.Delete(_root, recursive: true);

    /// <summary>
    /// MCP9600 by the kernel's driver: raw 800 of 62.5 m°C is 50 °C. MAX31865: raw 9099 at 430 Ω is about 119.4 Ω, which its driver scales linearly.
    /// ADS1115 at 4.096 V: 0.125 mV a count. The same values as through drivers of our own.
    /// </summary>
    [Theory]
    [InlineData("iio:device2/in_temp_raw", "800", "in_temp_scale=62.500000", Quantity.Temperature, 50)]
    [InlineData("iio:device0/in_temp_raw", "4800", "in_temp_offset=200 in_temp_scale=10", Quantity.Temperature, 50)]
    [InlineData("iio:device0/in_temp_ambient_raw", "400", "in_temp_ambient_scale=62.5 in_temp_scale=1", Quantity.Ambient, 25)]
    [InlineData("iio:device0/in_temp_input", "45210", "in_temp_scale=9", Quantity.Temperature, 45.21)]
    [InlineData("iio:device1/in_voltage0_raw", "-5240", "in_voltage_scale=0.125", Quantity.Orp, -655)]
    [InlineData("iio:device1/in_voltage0_raw", "-5240", "in_voltage0_scale=0.125 in_voltage_scale=7", Quantity.Orp, -655)]
    [InlineData("iio:device1/in_voltage0-voltage1_raw", "-5240", "in_voltage-voltage_scale=0.125 in_voltage_scale=7", Quantity.Orp, -655)]
    [InlineData("iio:device3/in_ph_raw", "9810", "in_ph_scale=0.001", Quantity.Ph, 9.81)]
    [InlineData("hwmon4/temp1_input", "45210", "temp1_fault=0", Quantity.Temperature, 45.21)]
    [InlineData("hwmon4/in2_input", "-655", "", Quantity.Orp, -655)]
    [InlineData("hwmon4/power1_input", "1450000000", "", Quantity.Heater, 1450)]
    public async Task A_value_is_scaled_by_the_kernels_rules(string file, string text, string beside, Quantity measures, double value)
    {
        Show(file, text);
        foreach (var other in beside.Split(' ', StringSplitOptions.RemoveEmptyEntries))
        {
            Show(Path.Combine(Path.GetDirectoryName(file)!, other.Split('=')[0]), other.Split('=')[1]);
        }

        var (sample, unit) = await TakeAsync($$"""{ "file": "{{_root}}/{{file}}" }""", measures);
        Assert.Equal(value, unit.ToCanonical(sample.Value!.Value), 1e-9);
    }

    [Fact]
    public async Task A_star_stands_for_what_the_kernel_numbers_anew()
    {
        Show("1-0067/iio:device7/in_temp_raw", "800");
        Show("1-0067/iio:device7/in_temp_scale", "62.5");
        Assert.Equal(50, (await TakeAsync($$"""{ "file": "{{_root}}/1-0067/iio:device*/in_temp_raw" }""")).Sample.Value);

        Show("1-0067/iio:device8/in_temp_raw", "800");
        Assert.Equal(
            Sample.Missing($"more than one file is {_root}/1-0067/iio:device*/in_temp_raw, such as {_root}/1-0067/iio:device7/in_temp_raw and {_root}/1-0067/iio:device8/in_temp_raw; wanted one: write the folder out as far as it needs"),
            (await TakeAsync($$"""{ "file": "{{_root}}/1-0067/iio:device*/in_temp_raw" }""")).Sample);
        Assert.Equal(
            Sample.Missing($"there is no file {_root}/1-0099/iio:device*/in_temp_raw; wanted a value of the kernel: load its driver, check the chip's wires"),
            (await TakeAsync($$"""{ "file": "{{_root}}/1-0099/iio:device*/in_temp_raw" }""")).Sample);
    }

    [Fact]
    public async Task A_sensor_that_the_kernel_marks_as_faulty_gives_no_value()
    {
        Show("hwmon4/temp1_input", "127000");
        Show("hwmon4/temp1_fault", "1");
        Assert.Equal(
            Sample.Fault($"the kernel marks {_root}/hwmon4/temp1_input as faulty: the sensor is open or shorted"),
            (await TakeAsync($$"""{ "file": "{{_root}}/hwmon4/temp1_input" }""")).Sample);
    }

    [Fact]
    public async Task What_is_no_number_is_told()
    {
        Show("hwmon4/temp1_input", "hot\n");
        Assert.Equal(
            Sample.Fault($@"the file {_root}/hwmon4/temp1_input holds 'hot\n'; wanted a number"),
            (await TakeAsync($$"""{ "file": "{{_root}}/hwmon4/temp1_input" }""")).Sample);
    }

    [Fact]
    public async Task A_file_that_a_program_writes_is_believed_while_it_is_young()
    {
        Show("kettle.txt", "113.0\n");
        var settings = $$"""{ "file": "{{_root}}/kettle.txt", "unit": "°F", "offset": -0.5, "age": "30 s" }""";
        var (sample, unit) = await TakeAsync(settings);
        Assert.Equal(44.7222, unit.ToCanonical(sample.Value!.Value), 1e-4);

        File.SetLastWriteTimeUtc(Path.Combine(_root, "kettle.txt"), TimeProvider.System.GetUtcNow().UtcDateTime.AddMinutes(-5));
        Assert.Equal(Sample.Missing($"the file {_root}/kettle.txt was written 5 min ago; wanted 30 s at most"), (await TakeAsync(settings)).Sample);
    }

    [Theory]
    [InlineData("""{ "file": "in_temp_raw" }""", "settings.file is \"in_temp_raw\"; wanted the path of a file, such as")]
    [InlineData("""{ "file": "/sys/x/in_voltage0_raw" }""", "settings.file is a file in mV for a probe that measures temperature; wanted another file, or a \"unit\" of \"°C\", \"°F\" or \"K\".")]
    [InlineData("""{ "file": "/run/kettle" }""", "settings.unit is missing; wanted \"°C\", \"°F\" or \"K\".")]
    [InlineData("""{ "file": "/sys/x/in_temp_raw", "age": "30 s" }""", "settings.age is set for a file of the kernel; wanted no such key")]
    [InlineData("""{ "file": "/sys/x/in_temp_raw", "scale": 0 }""", "settings.scale is 0; wanted a factor other than 0.")]
    public void One_sentence_says_what_is_wrong(string settings, string sentence) =>
        Assert.StartsWith(sentence, Assert.Single(I2cRig.FaultsOf(new KernelFileDriver(), settings)), StringComparison.Ordinal);

    private static async Task<(Sample Sample, SampleUnit Unit)> TakeAsync(string settings, Quantity measures = Quantity.Temperature)
    {
        await using var bus = new KernelBusKind().Read(new BusId("files"), I2cRig.Node("{}", out _)).Create(new WatchClock(TimeProvider.System));
        var probe = I2cRig.Make(new KernelFileDriver(), settings, measures, bus);
        await bus.OpenAsync(I2cRig.Stop);
        return (await probe.TakeSampleAsync(I2cRig.Stop), probe.Definition.Unit);
    }

    private void Show(string file, string text)
    {
        Directory.CreateDirectory(Path.GetDirectoryName(Path.Combine(_root, file))!);
        File.WriteAllText(Path.Combine(_root, file), text);
    }
}
