using VatWatch.Probes.I2c.Mcp9808;
using VatWatch.Testing.Registers;

namespace VatWatch.Tests.Probes.I2c.Mcp9808;

/// <summary>Register values by the maker's description: bit 12 sign, 11 to 0 sixteenths of a degree, 15 to 13 limits.</summary>
public sealed class Mcp9808ChipTests
{
    [Theory]
    [InlineData(0xC194, 25.25)]
    [InlineData(0x0320, 50.0)]
    [InlineData(0x0550, 85.0)]
    [InlineData(0x1FF0, -1.0)]
    [InlineData(0x1E70, -25.0)]
    public async Task The_register_becomes_a_temperature(int word, double celsius)
    {
        await using var rig = new I2cRig();
        rig.Bench.With(0x18, new Mcp9808Registers { Temperature = (ushort)word });
        var probe = await rig.OpenAsync(new Mcp9808Driver(), "{}");

        Assert.Equal(celsius, (await probe.TakeSampleAsync(I2cRig.Stop)).Value);
        Assert.Equal(["18 W 06 R 00 54", "18 W 07 R 04 00", "18 W 01 R 00 00", $"18 W 05 R {word >> 8:X2} {word & 255:X2}"], rig.Bench.Log.Take());
    }

    [Fact]
    public async Task A_chip_that_sleeps_is_woken_and_given_time_to_convert()
    {
        await using var rig = new I2cRig();
        var chip = new Mcp9808Registers { Temperature = 0x0320, Configuration = 0x0100 };
        rig.Bench.With(0x1F, chip);
        var probe = await rig.OpenAsync(new Mcp9808Driver(), """{ "address": "0x1F" }""", Quantity.Ambient);

        var began = TimeProvider.System.GetTimestamp();
        Assert.Equal(50, (await probe.TakeSampleAsync(I2cRig.Stop)).Value);
        Assert.InRange(TimeProvider.System.GetElapsedTime(began).TotalMilliseconds, 250, 5000);
        Assert.Contains("1F W 01 00 00", rig.Bench.Log.Lines);
        Assert.Equal(0, chip.Configuration);
    }

    /// <summary>The library's class refuses such a chip (device identity other than 0x0400).</summary>
    [Fact]
    public async Task A_later_revision_of_the_chip_is_read()
    {
        await using var rig = new I2cRig();
        rig.Bench.With(0x18, new Mcp9808Registers { Temperature = 0x0320, Device = 0x0401 });
        var probe = await rig.OpenAsync(new Mcp9808Driver(), "{}");

        Assert.Equal(50, (await probe.TakeSampleAsync(I2cRig.Stop)).Value);
        var library = Assert.ThrowsAny<Exception>(() => new Iot.Device.Mcp9808.Mcp9808(rig.Bench.Open(1).CreateDevice(0x18)));
        Assert.IsNotType<IOException>(library);
    }

    [Theory]
    [InlineData(0x0054, 0x0300)]
    [InlineData(0x1234, 0x0400)]
    public async Task Another_chip_at_the_address_is_refused_unwritten_and_named(int maker, int device)
    {
        await using var rig = new I2cRig();
        rig.Bench.With(0x18, new Mcp9808Registers { Temperature = 0x0320, Maker = (ushort)maker, Device = (ushort)device, Configuration = 0x0100 });
        var probe = await rig.OpenAsync(new Mcp9808Driver(), "{}");

        var sample = await probe.TakeSampleAsync(I2cRig.Stop);
        Assert.Equal(Quality.Fault, sample.Quality);
        Assert.Equal(
            $"MCP9808 at 0x18 on I2C bus 1: it identifies itself as maker 0x{maker:X4}, device 0x{device:X4}; wanted maker 0x0054, device 0x04xx: another chip has this address",
            sample.Reason);
        Assert.DoesNotContain(rig.Bench.Log.Lines, line => line.StartsWith("18 W 01 00", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData(0xFFFF, "reads as all ones")]
    [InlineData(0x0FF0, "says 255.0 °C; wanted -40 to 125 °C")]
    [InlineData(0x1C00, "says -64.0 °C; wanted -40 to 125 °C")]
    public async Task A_register_that_cannot_be_is_a_fault(int word, string reason)
    {
        await using var rig = new I2cRig();
        rig.Bench.With(0x18, new Mcp9808Registers { Temperature = (ushort)word });
        var probe = await rig.OpenAsync(new Mcp9808Driver(), "{}");

        var sample = await probe.TakeSampleAsync(I2cRig.Stop);
        Assert.Equal((Quality.Fault, (double?)null), (sample.Quality, sample.Value));
        Assert.Contains(reason, sample.Reason);
    }

    [Fact]
    public async Task Zero_is_not_believed_where_everything_reads_as_zero()
    {
        await using var rig = new I2cRig();
        var chip = new Mcp9808Registers { Temperature = 0x0320 };
        rig.Bench.With(0x18, chip);
        var probe = await rig.OpenAsync(new Mcp9808Driver(), "{}");
        Assert.Equal(50, (await probe.TakeSampleAsync(I2cRig.Stop)).Value);
        (chip.Temperature, chip.Maker, chip.Device) = (0, 0, 0);

        var sample = await probe.TakeSampleAsync(I2cRig.Stop);
        Assert.Equal((Quality.Fault, (double?)null), (sample.Quality, sample.Value));
        Assert.Contains("registers read as zeros", sample.Reason);
    }

    [Theory]
    [InlineData(0x0320, 50.0)]
    [InlineData(0x0000, 0.0)]
    public async Task Zero_is_believed_only_at_the_second_look(int later, double celsius)
    {
        await using var rig = new I2cRig();
        rig.Bench.With(0x18, new Mcp9808Registers { Temperature = 0, TemperatureAfterOneLook = (ushort)later });
        var probe = await rig.OpenAsync(new Mcp9808Driver(), "{}");

        Assert.Equal(celsius, (await probe.TakeSampleAsync(I2cRig.Stop)).Value);
    }
}
