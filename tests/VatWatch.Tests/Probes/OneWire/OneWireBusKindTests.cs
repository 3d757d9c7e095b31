using System.Diagnostics;
using Microsoft.Extensions.Time.Testing;
using VatWatch.Probes;
using VatWatch.Probes.Blocking;
using VatWatch.Probes.OneWire;
using VatWatch.Testing;
using VatWatch.Tests.Probes.I2c;

namespace VatWatch.Tests.Probes.OneWire;

/// <summary>The bus on a real folder; a named pipe stands for a read that does not come back.</summary>
[Trait("Starts", "processes")]
public sealed class OneWireBusKindTests : IDisposable
{
    private const string Device = "28-0316a2797ac5";
    private const string Text = "20 03 4b 46 7f ff 10 10 86 : crc=86 YES\n20 03 4b 46 7f ff 10 10 86 t=50000\n";

    private readonly string _root = Directory.CreateTempSubdirectory("vatwatch-onewire-").FullName;

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    private string File => Path.Combine(_root, Device, "w1_slave");

    public void Dispose() => Directory.Delete(_root, recursive: true);

    [Fact]
    public async Task A_thermometer_is_read_and_one_that_was_unplugged_is_missing_until_it_returns()
    {
        Plug(Device, Text);
        await using var bus = Bus();
        var probe = Probe(bus);
        await bus.OpenAsync(Stop);
        Assert.Equal(Sample.Good(50), await probe.TakeSampleAsync(Stop));

        Directory.Delete(Path.Combine(_root, Device), recursive: true);
        var sample = await probe.TakeSampleAsync(Stop);
        Assert.Equal((Quality.Missing, (double?)null), (sample.Quality, sample.Value));
        Assert.Equal($"the thermometer {Device} is not among the 1-wire devices; check its plug, its three wires and its id", sample.Reason);

        Plug(Device, "");
        Assert.Equal(Quality.Missing, (await probe.TakeSampleAsync(Stop)).Quality);
        Plug(Device, Text);
        Assert.Equal(Sample.Good(50), await probe.TakeSampleAsync(Stop));
    }

    [Theory]
    [InlineData("1\n", "it has a supply wire of its own")]
    [InlineData("0\n", "it lives on its data wire (parasite power), which fails when the liquor is hot; give it its own supply wire")]
    [InlineData("-19\n", null)]
    [InlineData(null, null)]
    public async Task How_it_gets_its_power_is_said_beside_the_reading(string? told, string? remark)
    {
        Plug(Device, Text);
        if (told is not null)
        {
            await System.IO.File.WriteAllTextAsync(Path.Combine(_root, Device, "ext_power"), told, Stop);
        }

        await using var bus = Bus();
        var probe = Probe(bus);
        await bus.OpenAsync(Stop);
        Assert.Equal(Sample.Good(50), await probe.TakeSampleAsync(Stop));
        Assert.Equal(remark, probe.Remark);
    }

    [Fact]
    public async Task A_probe_that_lost_its_supply_for_a_moment_is_doubted_at_85()
    {
        const string PowerOn = "50 05 4b 46 7f ff 10 10 bd : crc=bd YES\n50 05 4b 46 7f ff 10 10 bd t=85000\n";
        Plug(Device, Text);
        await using var bus = Bus();
        var probe = Probe(bus);
        await bus.OpenAsync(Stop);
        Assert.Equal(Sample.Good(50), await probe.TakeSampleAsync(Stop));

        // Twice: a reading that was not believed is nothing the next may lean on.
        Plug(Device, PowerOn);
        Assert.Equal(Quality.Suspect, (await probe.TakeSampleAsync(Stop)).Quality);
        Assert.Equal(Quality.Suspect, (await probe.TakeSampleAsync(Stop)).Quality);
        Plug(Device, Text);
        Assert.Equal(Sample.Good(50), await probe.TakeSampleAsync(Stop));
    }

    [Fact]
    public async Task A_folder_that_is_gone_is_a_lost_bus()
    {
        Plug(Device, Text);
        await using var bus = Bus();
        var probe = Probe(bus);
        await bus.OpenAsync(Stop);
        Directory.Delete(_root, recursive: true);

        var lost = await Assert.ThrowsAsync<BusLostException>(async () => await probe.TakeSampleAsync(Stop));
        Assert.Equal($"there is no folder {_root}; wanted the kernel's 1-wire devices: switch the interface on", lost.Message);
        await bus.CloseAsync();
        await Assert.ThrowsAsync<BusLostException>(async () => await bus.OpenAsync(Stop));

        Plug(Device, Text);
        await bus.OpenAsync(Stop);
        Assert.Equal(Sample.Good(50), await probe.TakeSampleAsync(Stop));
    }

    [Fact]
    public async Task A_file_that_is_none_is_a_fault()
    {
        Directory.CreateDirectory(File);
        await using var bus = Bus();
        var probe = Probe(bus);
        await bus.OpenAsync(Stop);

        var sample = await probe.TakeSampleAsync(Stop);
        Assert.Equal(Quality.Fault, sample.Quality);
        Assert.StartsWith($"the thermometer {Device} cannot be read (", sample.Reason);
    }

    [Fact]
    public async Task A_read_takes_as_long_as_the_conversion_and_keeps_no_shared_thread()
    {
        Pipe(Device);
        await using var bus = OneWireBusKind.Bus(new BusId("wire"), _root, TimeProvider.System);
        var probe = Probe(bus);
        await bus.OpenAsync(Stop);

        var reading = probe.TakeSampleAsync(Stop).AsTask();
        Assert.False(reading.IsCompleted);
        await Task.Delay(TimeSpan.FromMilliseconds(100), Stop);
        Assert.False(reading.IsCompleted);
        await System.IO.File.WriteAllTextAsync(File, Text, Stop);
        Assert.Equal(Sample.Good(50), await reading);
        Assert.Equal(1, bus.Threads);
    }

    [Fact]
    public async Task Reads_that_never_come_back_cost_one_thread_and_one_handle_more()
    {
        Pipe(Device);
        var clock = new FakeTimeProvider();
        await using var bus = Bus(clock);
        var probe = Probe(bus);
        for (var cycle = 0; cycle < 10; cycle++)
        {
            await Assert.ThrowsAsync<BusLostException>(async () =>
            {
                await bus.OpenAsync(Stop);
                await clock.PassAsync(probe.TakeSampleAsync(Stop).AsTask());
            });
            await bus.CloseAsync();
            Assert.InRange(bus.Threads, 1, 2);
        }

        // Someone opens the other end: both calls come back, and nothing stays open.
        while (bus.Threads > 0)
        {
            using (new FileStream(File, FileMode.Open, FileAccess.ReadWrite))
            {
                await Task.Delay(TimeSpan.FromMilliseconds(5), Stop);
            }
        }

        Assert.DoesNotContain(
            Directory.GetFileSystemEntries("/proc/self/fd"),
            handle => new FileInfo(handle).LinkTarget?.StartsWith(_root, StringComparison.Ordinal) == true);

        System.IO.File.Delete(File);
        Plug(Device, Text);
        await bus.OpenAsync(Stop);
        Assert.Equal(Sample.Good(50), await probe.TakeSampleAsync(Stop));
    }

    [Fact]
    public void The_kernels_folder_is_the_default()
    {
        var bus = new OneWireBusKind().Read(new BusId("wire"), I2cRig.Node("{}", out _)).Create(new WatchClock(TimeProvider.System));
        Assert.Equal("/sys/bus/w1/devices", bus.Device);
    }

    private BlockingBus<OneWireFolder> Bus(TimeProvider? wall = null) => OneWireBusKind.Bus(new BusId("wire"), _root, wall ?? TimeProvider.System);

    private static IProbe Probe(BlockingBus<OneWireFolder> bus) => I2cRig.Make(new OneWireDriver(), $$"""{ "id": "{{Device}}" }""", Quantity.Temperature, bus);

    private void Plug(string device, string text)
    {
        Directory.CreateDirectory(Path.Combine(_root, device));
        System.IO.File.WriteAllText(Path.Combine(_root, device, "w1_slave"), text);
    }

    private void Pipe(string device)
    {
        Directory.CreateDirectory(Path.Combine(_root, device));
        using var made = Process.Start("mkfifo", [Path.Combine(_root, device, "w1_slave")]);
        made.WaitForExit();
        Assert.Equal(0, made.ExitCode);
    }
}
