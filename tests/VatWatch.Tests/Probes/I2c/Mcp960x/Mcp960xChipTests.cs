using VatWatch.Probes.I2c.Mcp960x;
using VatWatch.Testing.Registers;

namespace VatWatch.Tests.Probes.I2c.Mcp960x;

/// <summary>The thermocouple amplifier. Register values by the maker's description: signed words of 0.0625 °C.</summary>
public sealed class Mcp960xChipTests
{
    [Fact]
    public async Task Setting_up_and_reading_put_these_bytes_on_the_wire()
    {
        await using var rig = new I2cRig();
        rig.Bench.With(0x67, new Mcp960xRegisters { Forced = (0x0320, 0x0190) });
        var probe = await rig.OpenAsync(new Mcp960xDriver(), """{ "type": "T" }""");

        Assert.Equal(50, (await probe.TakeSampleAsync(I2cRig.Stop)).Value);

        // 05 to 0B: trace of the library's constructor. Type T is 0x20, filter 4.
        Assert.Equal(
            [
                "67 W 20 R 41 12", "67 W 05 24", "67 W 06 00", "67 W 08 00", "67 W 09 00", "67 W 0A 00", "67 W 0B 00", "67 W 04 00",
                "67 W 05 R 24", "67 W 04 R 40", "67 W 00 R 03 20", "67 W 04 00",
            ],
            rig.Bench.Log.Take());
    }

    [Theory]
    [InlineData(0x0320, 50)]
    [InlineData(0x0640, 100)]
    [InlineData(0xFFF0, -1)]
    [InlineData(0xFF38, -12.5)]
    public async Task Temperatures_are_right_on_both_sides_of_zero(int word, double celsius)
    {
        await using var rig = new I2cRig();
        rig.Bench.With(0x60, new Mcp960xRegisters { Forced = ((ushort)word, (ushort)word) });
        var hot = await rig.OpenAsync(new Mcp960xDriver(), """{ "address": "0x60" }""");
        var cold = await rig.OpenAsync(new Mcp960xDriver(), """{ "address": "0x60", "junction": "cold" }""", Quantity.Ambient);

        Assert.Equal(celsius, (await hot.TakeSampleAsync(I2cRig.Stop)).Value);
        Assert.Equal(celsius, (await cold.TakeSampleAsync(I2cRig.Stop)).Value);
    }

    /// <summary>Why the registers are read directly; when this fails, a new version of the library has been mended.</summary>
    [Fact]
    public void The_librarys_own_temperatures_are_still_wrong()
    {
        using var bench = new FakeI2cBench();
        using var bus = bench.With(0x60, new Mcp960xRegisters { Forced = (0xFFF0, 0xFFF0), HotC = 60, ColdC = 24 }).Open(1);
        var library = new Iot.Device.Mcp960x.Mcp960x(bus.CreateDevice(0x60));

        Assert.Equal(-2049, library.GetTemperature().DegreesCelsius);
        Assert.Equal(-3841, library.GetColdJunctionTemperature().DegreesCelsius);
        Assert.Equal(36, library.GetHotJunctionTemperature().DegreesCelsius, 0.1);
    }

    /// <summary>Worked by hand with the ITS-90 tables: hot 60 °C, cold 24 °C; a type T read as K is 60.6 °C or so.</summary>
    [Theory]
    [InlineData("K")]
    [InlineData("T")]
    public async Task The_type_of_the_thermocouple_reaches_the_chip(string type)
    {
        await using var rig = new I2cRig();
        var chip = new Mcp960xRegisters { Soldered = type == "T" ? Thermocouple.T : Thermocouple.K, HotC = 60, ColdC = 24 };
        rig.Bench.With(0x67, chip);
        var probe = await rig.OpenAsync(new Mcp960xDriver(), $$"""{ "type": "{{type}}" }""");

        Assert.Equal(60, (await probe.TakeSampleAsync(I2cRig.Stop)).Value!.Value, 0.0625);

        // A moment without supply brings type K back.
        chip.Restart();
        Assert.Equal(60, (await probe.TakeSampleAsync(I2cRig.Stop)).Value!.Value, 0.0625);
        Assert.Equal(type == "T" ? 0x24 : 0x04, chip.Sensor);
    }

    [Fact]
    public async Task Open_and_short_circuits_are_faults()
    {
        await using var rig = new I2cRig();
        var chip = new Mcp960xRegisters { HotC = 45, Open = true };
        rig.Bench.With(0x67, chip);
        var hot = await rig.OpenAsync(new Mcp960xDriver(), "{}");
        var cold = await rig.OpenAsync(new Mcp960xDriver(), """{ "junction": "cold" }""", Quantity.Ambient);

        Assert.Equal("thermocouple circuit open, or its voltage outside the range of its type; check its wires and their polarity", (await hot.TakeSampleAsync(I2cRig.Stop)).Reason);
        (chip.Open, chip.Shorted) = (false, true);
        var sample = await hot.TakeSampleAsync(I2cRig.Stop);
        Assert.Equal((Quality.Fault, (double?)null), (sample.Quality, sample.Value));
        Assert.StartsWith("thermocouple shorted", sample.Reason);
        Assert.Equal(25, (await cold.TakeSampleAsync(I2cRig.Stop)).Value);

        chip.Shorted = false;
        Assert.Equal(45, (await hot.TakeSampleAsync(I2cRig.Stop)).Value!.Value, 0.0625);
    }

    /// <summary>The status of an MCP9600 (identity 40xx) has no bit for an open circuit; its floating input reads as no voltage.</summary>
    [Theory]
    [InlineData(0x4012, Quality.Suspect)]
    [InlineData(0x4112, Quality.Good)]
    public async Task A_chip_that_cannot_tell_an_open_thermocouple_is_doubted_when_both_junctions_agree(int identity, Quality quality)
    {
        await using var rig = new I2cRig();
        var chip = new Mcp960xRegisters { Identity = (ushort)identity, HotC = 25, ColdC = 25 };
        rig.Bench.With(0x67, chip);
        var probe = await rig.OpenAsync(new Mcp960xDriver(), "{}");

        var sample = await probe.TakeSampleAsync(I2cRig.Stop);
        Assert.Equal((quality, 25.0), (sample.Quality, sample.Value));

        chip.HotC = 45;
        Assert.Equal(Quality.Good, (await probe.TakeSampleAsync(I2cRig.Stop)).Quality);
    }

    [Fact]
    public async Task A_value_is_waited_for_and_a_chip_that_has_stopped_is_not_believed()
    {
        await using var rig = new I2cRig();
        var chip = new Mcp960xRegisters { HotC = 45, LooksPerConversion = 4 };
        rig.Bench.With(0x67, chip);
        var probe = await rig.OpenAsync(new Mcp960xDriver(), "{}");

        var began = TimeProvider.System.GetTimestamp();
        Assert.Equal(45, (await probe.TakeSampleAsync(I2cRig.Stop)).Value!.Value, 0.0625);
        Assert.InRange(TimeProvider.System.GetElapsedTime(began).TotalMilliseconds, 4 * 40, 5000);

        chip.LooksPerConversion = -1;
        await probe.TakeSampleAsync(I2cRig.Stop);
        var sample = await probe.TakeSampleAsync(I2cRig.Stop);
        Assert.Equal((Quality.Missing, (double?)null), (sample.Quality, sample.Value));
        Assert.Equal("the MCP960x has stopped converting; check its supply", sample.Reason);
    }

    [Fact]
    public async Task Another_chip_at_the_address_is_refused()
    {
        await using var rig = new I2cRig();
        rig.Bench.With(0x67, new Mcp960xRegisters { Identity = 0x5511 });
        var probe = await rig.OpenAsync(new Mcp960xDriver(), "{}");

        Assert.Equal(
            "MCP960x at 0x67 on I2C bus 1: it identifies itself as 0x5511; wanted 0x40xx or 0x41xx: another chip has this address",
            (await probe.TakeSampleAsync(I2cRig.Stop)).Reason);
        Assert.Equal(["67 W 20 R 55 11"], rig.Bench.Log.Lines);
    }
}
