using System.Buffers.Binary;
using VatWatch.Probes.I2c.Ads1115;
using VatWatch.Probes.I2c.Mcp960x;
using VatWatch.Probes.I2c.Mcp9808;
using VatWatch.Probes.I2c.UFireIse;
using VatWatch.Probes.Spi;
using VatWatch.Probes.Spi.Max31865;
using VatWatch.Testing.Registers;
using VatWatch.Tests.Probes.I2c;

namespace VatWatch.Tests.HardwareNotes;

/// <summary>The register contents of hardware-notes, put into the chips' registers and read through the drivers.</summary>
public sealed class RegisterDumpTests
{
    [Fact]
    public async Task The_MCP9808_file_reads_as_it_says()
    {
        var chip = new Mcp9808Registers();
        await using var rig = new I2cRig();
        rig.Bench.With(0x18, chip);
        var probe = await rig.OpenAsync(new Mcp9808Driver(), "{}");
        foreach (var row in CapturedBytes.Rows("i2c-thermometers", "mcp9808.txt"))
        {
            chip.Temperature = Word(row);
            Assert.Equal(CapturedBytes.Number(row[1]), (await probe.TakeSampleAsync(I2cRig.Stop)).Value);
        }
    }

    [Fact]
    public async Task The_MCP960x_file_reads_as_it_says()
    {
        var chip = new Mcp960xRegisters();
        await using var rig = new I2cRig();
        rig.Bench.With(0x67, chip);
        var hot = await rig.OpenAsync(new Mcp960xDriver(), "{}");
        var cold = await rig.OpenAsync(new Mcp960xDriver(), """{ "junction": "cold" }""", Quantity.Ambient);
        foreach (var row in CapturedBytes.Rows("i2c-thermometers", "mcp960x.txt"))
        {
            chip.Forced = (Word(row), Word(row));
            Assert.Equal(CapturedBytes.Number(row[1]), (await hot.TakeSampleAsync(I2cRig.Stop)).Value);
            Assert.Equal(CapturedBytes.Number(row[1]), (await cold.TakeSampleAsync(I2cRig.Stop)).Value);
        }
    }

    // A count of the converter is 0.03 to 0.04 °C.
    [Fact]
    public async Task The_MAX31865_file_reads_as_it_says()
    {
        foreach (var row in CapturedBytes.Rows("platinum-max31865", "max31865.txt"))
        {
            using var bench = new FakeSpiBench(new Max31865Registers { ForcedResult = Word(row) });
            await using var bus = new SpiBusKind { Open = bench.Open }.Read(new BusId("platinum"), I2cRig.Node("{}", out _)).Create(new WatchClock(TimeProvider.System));
            var settings = $$"""{ "element": "{{row[1]}}", "wires": 3, "reference": "{{row[2]}} Ω" }""";
            var probe = I2cRig.Make(new Max31865Driver(), settings, Quantity.Temperature, bus);
            await bus.OpenAsync(I2cRig.Stop);
            Assert.Equal(CapturedBytes.Number(row[3]), (await probe.TakeSampleAsync(I2cRig.Stop)).Value!.Value, 0.04);
        }
    }

    [Fact]
    public async Task The_ADS1115_file_reads_as_it_says()
    {
        var chip = new Ads1115Registers();
        await using var rig = new I2cRig();
        rig.Bench.With(0x48, chip);
        foreach (var row in CapturedBytes.Rows("electrodes-ads1115", "ads1115.txt"))
        {
            chip.ForcedCode = BinaryPrimitives.ReadInt16BigEndian(CapturedBytes.Bytes(row[0]));
            var settings = $$"""{ "address": "0x48", "input": "ain0", "range": "{{row[1]}} V", "volts": {} }""";
            var probe = await rig.OpenAsync(new Ads1115Driver(), settings, Quantity.Orp);
            Assert.Equal(CapturedBytes.Number(row[2]), (await probe.TakeSampleAsync(I2cRig.Stop)).Value!.Value, 12);
        }
    }

    [Fact]
    public async Task The_ISE_board_file_reads_as_it_says()
    {
        var chip = new UFireIseRegisters();
        await using var rig = new I2cRig();
        rig.Bench.With(0x3F, chip);
        var probe = await rig.OpenAsync(new UFireIseDriver(), "{}", Quantity.Orp);
        foreach (var row in CapturedBytes.Rows("electrodes-ads1115", "ufire-ise.txt"))
        {
            chip.Millivolts = BinaryPrimitives.ReadSingleLittleEndian(CapturedBytes.Bytes(row[0]));
            Assert.Equal(CapturedBytes.Number(row[1]), (await probe.TakeSampleAsync(I2cRig.Stop)).Value!.Value, 0.005);
        }
    }

    private static ushort Word(string[] row) => BinaryPrimitives.ReadUInt16BigEndian(CapturedBytes.Bytes(row[0]));
}
