using Microsoft.Extensions.Logging.Abstractions;
using Microsoft.Extensions.Time.Testing;
using VatWatch.Probes;
using VatWatch.Probes.Blocking;
using VatWatch.Probes.I2c;
using VatWatch.Probes.I2c.Ads1115;
using VatWatch.Probes.I2c.Mcp960x;
using VatWatch.Probes.I2c.Mcp9808;
using VatWatch.Probes.Spi;
using VatWatch.Readings;
using VatWatch.Testing;
using VatWatch.Testing.Registers;

namespace VatWatch.Tests.Probes.I2c;

/// <summary>Several chips on one bus: who is at fault, what is repeated, and what a driver that hangs costs.</summary>
public sealed class I2cSeatTests
{
    private const string Volts = """{ "address": "0x48", "input": "ain0", "volts": {} }""";

    [Fact]
    public async Task A_silent_chip_is_its_own_fault_and_the_others_go_on()
    {
        await using var rig = new I2cRig();
        rig.Bench.With(0x18, new Mcp9808Registers { Temperature = 0x0320 });
        var silent = rig.Make(new Ads1115Driver(), Volts, Quantity.Orp);
        var alive = await rig.OpenAsync(new Mcp9808Driver(), "{}");

        for (var round = 0; round < 20; round++)
        {
            var sample = await silent.TakeSampleAsync(I2cRig.Stop);
            Assert.Equal(Quality.Fault, sample.Quality);
            Assert.Equal(
                "ADS1115 at 0x48 on I2C bus 1 does not answer (no acknowledge); check its supply, its address pins, and the wires SDA and SCL with their pull-up resistors",
                sample.Reason);
            Assert.Equal(50, (await alive.TakeSampleAsync(I2cRig.Stop)).Value);
        }

        rig.Bench.With(0x48, new Ads1115Registers { Pins = { [0] = 1 } });
        Assert.Equal(1, (await silent.TakeSampleAsync(I2cRig.Stop)).Value!.Value, 12);
    }

    [Fact]
    public async Task The_bus_is_lost_when_every_chip_has_failed_three_times_in_a_row()
    {
        await using var rig = new I2cRig();
        rig.Bench.With(0x18, new Mcp9808Registers { Temperature = 0x0320 }).With(0x48, new Ads1115Registers());
        var first = await rig.OpenAsync(new Ads1115Driver(), Volts, Quantity.Orp);
        var second = await rig.OpenAsync(new Mcp9808Driver(), "{}");
        await first.TakeSampleAsync(I2cRig.Stop);
        rig.Bench.Faults.Probability = 1;

        for (var round = 0; round < 2; round++)
        {
            Assert.Equal(Quality.Fault, (await first.TakeSampleAsync(I2cRig.Stop)).Quality);
            Assert.Equal(Quality.Fault, (await second.TakeSampleAsync(I2cRig.Stop)).Quality);
        }

        Assert.Equal(Quality.Fault, (await first.TakeSampleAsync(I2cRig.Stop)).Quality);
        var lost = await Assert.ThrowsAsync<BusLostException>(async () => await second.TakeSampleAsync(I2cRig.Stop));
        Assert.Equal("no chip on I2C bus 1 answers; check the supply and the wires SDA and SCL with their pull-up resistors", lost.Message);

        await rig.Bus.CloseAsync();
        rig.Bench.Faults.Probability = 0;
        await rig.Bus.OpenAsync(I2cRig.Stop);
        Assert.Equal(Quality.Good, (await first.TakeSampleAsync(I2cRig.Stop)).Quality);
        Assert.Equal(50, (await second.TakeSampleAsync(I2cRig.Stop)).Value);
        Assert.Equal((1, 1), (rig.Bench.OpenHandles, rig.Bus.Threads));
    }

    [Fact]
    public async Task An_adapter_that_was_pulled_out_is_lost_at_once()
    {
        await using var rig = new I2cRig();
        rig.Bench.With(0x18, new Mcp9808Registers { Temperature = 0x0320 }).With(0x48, new Ads1115Registers());
        rig.Make(new Ads1115Driver(), Volts, Quantity.Orp);
        var probe = await rig.OpenAsync(new Mcp9808Driver(), "{}");
        (rig.Bench.Faults.Message, rig.Bench.Faults.Probability) = ("Error 19 performing I2C data transfer.", 1);

        var lost = await Assert.ThrowsAsync<BusLostException>(async () => await probe.TakeSampleAsync(I2cRig.Stop));
        Assert.Equal("0x18 on I2C bus 1 is gone (error 19)", lost.Message);
    }

    [Fact]
    public async Task A_bus_that_is_not_there_or_not_open_says_so()
    {
        await using var rig = new I2cRig();
        var probe = rig.Make(new Mcp9808Driver(), "{}");
        Assert.Equal("I2C bus 1 is not open", (await Assert.ThrowsAsync<BusLostException>(async () => await probe.TakeSampleAsync(I2cRig.Stop))).Message);

        rig.Bench.Present = false;
        var lost = await Assert.ThrowsAsync<BusLostException>(async () => await rig.Bus.OpenAsync(I2cRig.Stop));
        Assert.Equal("I2C bus 1 cannot be opened: Error 2. Can not open I2C device file '/dev/i2c-1'", lost.Message);

        // The real adapter 31 is on no computer that runs this.
        await using var real = new I2cBusKind().Read(new BusId("pi"), I2cRig.Node("""{ "bus": 31 }""", out _)).Create(new WatchClock(TimeProvider.System));
        lost = await Assert.ThrowsAsync<BusLostException>(async () => await real.OpenAsync(I2cRig.Stop));
        Assert.Equal("there is no /dev/i2c-31; wanted an I2C adapter: switch the interface on, or plug it in", lost.Message);
        await using var spi = new SpiBusKind().Read(new BusId("pi"), I2cRig.Node("""{ "bus": 31 }""", out _)).Create(new WatchClock(TimeProvider.System));
        lost = await Assert.ThrowsAsync<BusLostException>(async () => await spi.OpenAsync(I2cRig.Stop));
        Assert.Equal("there is no /dev/spidev31.0; wanted an SPI device: switch the interface on", lost.Message);
    }

    /// <summary>Requirement: with one transfer in twenty failing, 999 readings of 1000 are good. Every transfer and every sample is tried twice.</summary>
    [Theory]
    [InlineData("ads1115")]
    [InlineData("mcp9808")]
    [InlineData("mcp960x")]
    public async Task One_transfer_in_twenty_may_fail(string driver)
    {
        const int readings = 20_000;
        await using var rig = new I2cRig();
        rig.Bench.With(0x48, new Ads1115Registers { Pins = { [0] = 2.048 } })
            .With(0x18, new Mcp9808Registers { Temperature = 0x0320 })
            .With(0x67, new Mcp960xRegisters { Forced = (0x0320, 0x0190) });
        rig.Bench.Log.Keeps = false;
        rig.Bench.Faults.Probability = 0.05;
        var (probe, value) = driver switch
        {
            "ads1115" => (await rig.OpenAsync(new Ads1115Driver(), Volts, Quantity.Orp), 2.048),
            "mcp9808" => (await rig.OpenAsync(new Mcp9808Driver(), "{}"), 50),
            _ => (await rig.OpenAsync(new Mcp960xDriver(), "{}"), 50),
        };

        var good = 0;
        for (var reading = 0; reading < readings; reading++)
        {
            var sample = await probe.TakeSampleAsync(I2cRig.Stop);
            if (sample.Quality == Quality.Good)
            {
                good++;
                Assert.Equal(value, sample.Value!.Value, 12);
            }
        }

        TestContext.Current.TestOutputHelper?.WriteLine($"{driver}: {100.0 * good / readings:0.000} % good, {rig.Bench.Faults.Transfers} transfers");
        Assert.InRange(good, (int)(readings * 0.999), readings);
        Assert.InRange(rig.Bench.Faults.Transfers, (long)(readings * 1.04), long.MaxValue);
    }

    [Fact]
    public async Task A_driver_that_hangs_again_and_again_costs_one_thread_and_one_handle_more()
    {
        var clock = new FakeTimeProvider();
        await using var rig = new I2cRig(BlockingLimits.Wire, clock);
        rig.Bench.With(0x18, new Mcp9808Registers { Temperature = 0x0320 });
        var probe = rig.Make(new Mcp9808Driver(), "{}");

        for (var cycle = 0; cycle < 30; cycle++)
        {
            // Every third time the hanging calls come back.
            rig.Bench.Faults.Hang();
            for (var opening = 0; opening < 3; opening++)
            {
                await Assert.ThrowsAsync<BusLostException>(async () =>
                {
                    await rig.Bus.OpenAsync(I2cRig.Stop);
                    await clock.PassAsync(probe.TakeSampleAsync(I2cRig.Stop).AsTask());
                });
                await rig.Bus.CloseAsync();
                Assert.InRange(rig.Bus.Threads, 0, 2);
                Assert.InRange(rig.Bench.OpenHandles, 0, 2);
                Assert.InRange(rig.Bench.Faults.Stuck, 0, 2);
            }

            rig.Bench.Faults.LetGo();
            await Eventually.TrueAsync(() => rig.Bus.Threads == 0, "all threads end");
            Assert.Equal(0, rig.Bench.OpenHandles);
        }

        await rig.Bus.OpenAsync(I2cRig.Stop);
        Assert.Equal(50, (await probe.TakeSampleAsync(I2cRig.Stop)).Value);
        Assert.Equal((1, 1), (rig.Bus.Threads, rig.Bench.OpenHandles));
    }

    [Fact]
    public async Task The_loop_of_the_bus_reports_a_hang_and_reads_again_when_it_is_over()
    {
        var quick = new BlockingLimits(TimeSpan.FromMilliseconds(30), TimeSpan.FromMilliseconds(400), TimeSpan.FromMilliseconds(200));
        await using var rig = new I2cRig(quick);
        rig.Bench.With(0x18, new Mcp9808Registers { Temperature = 0x0320 }).With(0x48, new Ads1115Registers { Pins = { [0] = 1 } });
        var every = TimeSpan.FromMilliseconds(100);
        IProbe[] probes = [new Hurried(rig.Make(new Mcp9808Driver(), "{}"), every), new Hurried(rig.Make(new Ads1115Driver(), Volts, Quantity.Orp), every)];
        var readings = new System.Collections.Concurrent.ConcurrentQueue<Reading>();
        var options = new BusLoopOptions { FirstPause = TimeSpan.FromMilliseconds(100) };
        var loop = new BusLoop(rig.Bus, probes, new WatchClock(TimeProvider.System), TimeProvider.System, options, new ProbeCounters(), readings.Enqueue, NullLogger<BusLoop>.Instance);
        using var stop = CancellationTokenSource.CreateLinkedTokenSource(I2cRig.Stop);
        var running = loop.RunAsync(stop.Token);

        await Eventually.TrueAsync(() => readings.Count(reading => reading.Sample.Quality == Quality.Good) >= 6, "both probes are read");
        rig.Bench.Faults.Hang();
        await Eventually.TrueAsync(() => readings.Any(reading => reading.Sample.Reason?.StartsWith("a transfer on I2C bus 1 hung", StringComparison.Ordinal) == true), "the hang is reported");
        rig.Bench.Faults.LetGo();
        readings.Clear();
        await Eventually.TrueAsync(() => readings.Count(reading => reading.Sample.Quality == Quality.Good) >= 6, "both probes are read");

        await stop.CancelAsync();
        await Assert.ThrowsAnyAsync<OperationCanceledException>(() => running);
        await Eventually.TrueAsync(() => rig.Bus.Threads == 0, "all threads end");
        Assert.Equal(0, rig.Bench.OpenHandles);
    }

    private sealed class Hurried(IProbe probe, TimeSpan every) : IProbe
    {
        public ProbeDefinition Definition { get; } = probe.Definition with { Every = every, Id = new ProbeId(probe.Definition.Quantity.Word()) };

        public bool Listens => false;

        public ValueTask<Sample> TakeSampleAsync(CancellationToken cancel) => probe.TakeSampleAsync(cancel);
    }
}
