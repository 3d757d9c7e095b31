using System.Device.Spi;
using VatWatch.Probes.Blocking;
using VatWatch.Probes.Spi.Max31865;
using VatWatch.Probes.Spi;
using VatWatch.Probes;
using VatWatch.Science.Thermometry;
using VatWatch.Testing.Registers;
using VatWatch.Tests.Probes.I2c;

namespace VatWatch.Tests.Probes.Spi.Max31865;

/// <summary>The platinum thermometer on SPI. Resistances by IEC 60751; register values by the maker's description: code = 32768 R / reference.</summary>
public sealed class Max31865ChipTests
{
    private const string ThreeWires = """{ "wires": 3 }""";

    [Fact]
    public async Task Setting_up_and_reading_put_these_bytes_on_the_wire()
    {
        using var bench = new FakeSpiBench(new Max31865Registers { Ohm = 119.397 });
        await using var bus = Bus(bench);
        var probe = Probe(bus, ThreeWires);
        await bus.OpenAsync(I2cRig.Stop);

        Assert.Equal(50, (await probe.TakeSampleAsync(I2cRig.Stop)).Value!.Value, 0.04);
        Assert.Equal((SpiMode.Mode1, true), (bench.Settings!.Mode, bench.Settings.ClockFrequency <= 5_000_000));
        var log = bench.Log.Take();
        Assert.Equal(
            [
                "00 W 80 10", "00 W 83 FF FF 00 00",
                "00 W 80 92", "00 W 80 94", "00 W 00 00 R 00 90", "00 W 80 B0", "00 W 00 00 R 00 90",
                "00 W 00 00 00 00 00 00 00 00 00 R 00 90 47 16 FF FF 00 00 00", "00 W 80 10",
            ],
            log);
        Assert.Equal((1, 1), (bench.Chip.FaultCycles, bench.Chip.Conversions));
    }

    /// <summary>Codes of a Pt100 with 400 and 430 Ω and of a Pt1000 with 4300 Ω, worked from IEC 60751.</summary>
    [Theory]
    [InlineData("pt100", 400, 0x4000, 0)]
    [InlineData("pt100", 400, 0x463A, 25)]
    [InlineData("pt100", 400, 0x4C6A, 50)]
    [InlineData("pt100", 400, 0x58A4, 100)]
    [InlineData("pt100", 430, 0x3B88, 0)]
    [InlineData("pt100", 430, 0x4154, 25)]
    [InlineData("pt100", 430, 0x4716, 50)]
    [InlineData("pt100", 430, 0x5276, 100)]
    [InlineData("pt1000", 4300, 0x4716, 50)]
    [InlineData("pt1000", 4300, 0x3B88, 0)]
    public async Task The_register_becomes_the_temperature_of_the_standard(string element, double reference, int word, double celsius)
    {
        using var bench = new FakeSpiBench(new Max31865Registers { ForcedResult = (ushort)word });
        await using var bus = Bus(bench);
        var probe = Probe(bus, $$"""{ "element": "{{element}}", "wires": 4, "reference": "{{reference}} Ω" }""");
        await bus.OpenAsync(I2cRig.Stop);

        // Half a count of the converter is 0.02 °C.
        Assert.Equal(celsius, (await probe.TakeSampleAsync(I2cRig.Stop)).Value!.Value, 0.025);
    }

    /// <summary>Table of IEC 60751 for a Pt100, printed to a hundredth of an ohm, which is 0.013 °C; half a count of the converter is 0.02 °C.</summary>
    [Theory]
    [InlineData(92.16, -20)]
    [InlineData(96.09, -10)]
    [InlineData(100.00, 0)]
    [InlineData(107.79, 20)]
    [InlineData(111.67, 30)]
    [InlineData(115.54, 40)]
    [InlineData(119.40, 50)]
    [InlineData(123.24, 60)]
    [InlineData(138.51, 100)]
    public async Task A_resistance_of_the_standards_table_gives_its_temperature(double ohm, double celsius)
    {
        using var bench = new FakeSpiBench(new Max31865Registers { Ohm = ohm });
        await using var bus = Bus(bench);
        var probe = Probe(bus, """{ "wires": 4, "mains": "50 Hz" }""");
        await bus.OpenAsync(I2cRig.Stop);
        Assert.Equal(celsius, (await probe.TakeSampleAsync(I2cRig.Stop)).Value!.Value, 0.035);
    }

    /// <summary>Below zero the library approximates; IEC 60751 has a fourth-degree term.</summary>
    [Theory]
    [InlineData(-20)]
    [InlineData(-5)]
    [InlineData(45)]
    public async Task The_reference_follows_the_element_when_it_is_not_given(double celsius)
    {
        using var bench = new FakeSpiBench(new Max31865Registers { Ohm = PlatinumResistance.ResistanceOhm(celsius, 1000).Value, ReferenceOhm = 4300 });
        await using var bus = Bus(bench);
        var probe = Probe(bus, """{ "element": "pt1000", "wires": 2, "mains": "50 Hz" }""");
        await bus.OpenAsync(I2cRig.Stop);

        Assert.Equal(celsius, (await probe.TakeSampleAsync(I2cRig.Stop)).Value!.Value, 0.025);
        Assert.Equal(0x01, bench.Chip.Configuration);
    }

    [Theory]
    [InlineData(0xA8, 430, "no current flows through the platinum element: the element or a feeding wire (F+ or F−) is broken")]
    [InlineData(0x80, 430, "platinum element's circuit open: its resistance is at the upper end; check the sensing wire RTD+")]
    [InlineData(0x40, 0, "platinum element shorted: its resistance is at the lower end; check its wires")]
    [InlineData(0x20, 119, "no current flows through the platinum element: the element or a feeding wire (F+ or F−) is broken")]
    [InlineData(0x10, 119, "current leaves the platinum element on the side of F+ by another way: a wire touches the sheath, ground or liquor")]
    [InlineData(0x08, 119, "the sensing wire RTD− of the platinum element is broken, or touches the sheath, ground or liquor")]
    [InlineData(0x04, 119, "a terminal of the platinum element lies outside the supply; check its wires and their insulation")]
    public async Task Each_fault_that_the_chip_sees_is_told_and_no_value_given(byte faults, double ohm, string reason)
    {
        using var bench = new FakeSpiBench(new Max31865Registers { Ohm = ohm, Faults = faults });
        await using var bus = Bus(bench);
        var probe = Probe(bus, ThreeWires);
        await bus.OpenAsync(I2cRig.Stop);

        var sample = await probe.TakeSampleAsync(I2cRig.Stop);
        Assert.Equal((Quality.Fault, (double?)null, reason), (sample.Quality, sample.Value, sample.Reason));

        (bench.Chip.Faults, bench.Chip.Ohm) = (0, 119.397);
        Assert.Equal(50, (await probe.TakeSampleAsync(I2cRig.Stop)).Value!.Value, 0.04);
    }

    [Theory]
    [InlineData(430, "platinum element's circuit open, or the reference resistor another: 430.0 Ω")]
    [InlineData(400, "platinum element's circuit open, or the reference resistor another: 400.0 Ω")]
    [InlineData(0, "platinum element shorted, or the chip silent: 0.0 Ω")]
    [InlineData(5, "platinum element shorted, or the chip silent: 5.0 Ω")]
    public async Task A_resistance_that_platinum_does_not_have_is_a_fault_even_when_the_chip_sees_none(double ohm, string reason)
    {
        using var bench = new FakeSpiBench(new Max31865Registers { Ohm = ohm });
        await using var bus = Bus(bench);
        var probe = Probe(bus, ThreeWires);
        await bus.OpenAsync(I2cRig.Stop);

        Assert.Equal(reason, (await probe.TakeSampleAsync(I2cRig.Stop)).Reason);
    }

    [Theory]
    [InlineData(0xFF, "it sends only ones")]
    [InlineData(0x00, "its configuration is 0x00 where 0x90 was written")]
    public async Task A_chip_that_is_not_there_is_a_fault(byte level, string reason)
    {
        using var bench = new FakeSpiBench(new Max31865Registers { Floating = level });
        await using var bus = Bus(bench);
        var probe = Probe(bus, ThreeWires);
        await bus.OpenAsync(I2cRig.Stop);

        var sample = await probe.TakeSampleAsync(I2cRig.Stop);
        Assert.Equal(Quality.Fault, sample.Quality);
        Assert.StartsWith($"MAX31865 at SPI bus 0, chip select 0: {reason}", sample.Reason);
    }

    [Fact]
    public async Task A_conversion_is_waited_for_and_one_that_never_ends_is_told()
    {
        using var bench = new FakeSpiBench(new Max31865Registers { Ohm = 119.397, LooksBusy = 3 });
        await using var bus = Bus(bench);
        var probe = Probe(bus, ThreeWires);
        await bus.OpenAsync(I2cRig.Stop);
        Assert.Equal(50, (await probe.TakeSampleAsync(I2cRig.Stop)).Value!.Value, 0.04);

        bench.Chip.LooksBusy = int.MaxValue;
        var sample = await probe.TakeSampleAsync(I2cRig.Stop);
        Assert.Equal("MAX31865 at SPI bus 0, chip select 0: it did not end its look for broken wires; check its supply", sample.Reason);
    }

    /// <summary>1 Ω of lead is 2.6 °C on a Pt100: 0.385 Ω/°C near 50 °C by IEC 60751.</summary>
    [Fact]
    public async Task The_resistance_of_two_leads_is_taken_out()
    {
        using var bench = new FakeSpiBench(new Max31865Registers { Ohm = 119.397 + 1 });
        await using var bus = Bus(bench);
        var raw = Probe(bus, """{ "wires": 2 }""");
        var corrected = Probe(bus, """{ "wires": 2, "leads": "1 Ω" }""");
        await bus.OpenAsync(I2cRig.Stop);
        Assert.Equal(52.6, (await raw.TakeSampleAsync(I2cRig.Stop)).Value!.Value, 0.05);
        Assert.Equal(50, (await corrected.TakeSampleAsync(I2cRig.Stop)).Value!.Value, 0.04);
    }

    [Fact]
    public void Leads_are_refused_where_the_chip_takes_them_out() => Assert.Equal(
        ["settings.leads is set for 3 wires; wanted no such key: with three or four wires the leads are taken out already."],
        I2cRig.FaultsOf(new Max31865Driver(), """{ "wires": 3, "leads": "1 Ω" }"""));

    [Fact]
    public async Task A_chip_that_lost_its_supply_for_a_moment_is_set_up_anew()
    {
        using var bench = new FakeSpiBench(new Max31865Registers { Ohm = 115.541 });
        await using var bus = Bus(bench);
        var probe = Probe(bus, ThreeWires);
        await bus.OpenAsync(I2cRig.Stop);
        await probe.TakeSampleAsync(I2cRig.Stop);

        bench.Chip.Restart();
        Assert.Equal(40, (await probe.TakeSampleAsync(I2cRig.Stop)).Value!.Value, 0.04);
        Assert.Equal(0x10, bench.Chip.Configuration);
    }

    [Fact]
    public async Task A_bus_whose_transfers_fail_is_lost_and_leaves_nothing_open()
    {
        using var bench = new FakeSpiBench(new Max31865Registers());
        await using var bus = Bus(bench);
        var probe = Probe(bus, ThreeWires);
        await bus.OpenAsync(I2cRig.Stop);
        bench.Faults.Probability = 1;

        Assert.StartsWith("MAX31865 at SPI bus 0, chip select 0 does not answer (error 5)", (await probe.TakeSampleAsync(I2cRig.Stop)).Reason);
        await probe.TakeSampleAsync(I2cRig.Stop);
        await Assert.ThrowsAsync<BusLostException>(async () => await probe.TakeSampleAsync(I2cRig.Stop));
        await bus.CloseAsync();
        Assert.Equal((0, 0), (bench.OpenHandles, bus.Threads));
    }

    private static BlockingBus<GuardedSpiDevice> Bus(FakeSpiBench bench) =>
        (BlockingBus<GuardedSpiDevice>)new SpiBusKind { Open = bench.Open }.Read(new BusId("pi"), I2cRig.Node("{}", out _)).Create(new WatchClock(TimeProvider.System));

    private static IProbe Probe(BlockingBus<GuardedSpiDevice> bus, string settings) => I2cRig.Make(new Max31865Driver(), settings, Quantity.Temperature, bus);
}
