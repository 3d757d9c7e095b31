using VatWatch.Probes;
using VatWatch.Probes.Modbus;
using VatWatch.Testing.Instruments;
using VatWatch.Tests.Probes.Serial;

namespace VatWatch.Tests.Probes.Modbus;

/// <summary>Devices served by pymodbus on a pseudo-terminal: somebody else's reading of the protocol.</summary>
[Trait("Starts", "processes")]
public sealed class ForeignDeviceTests
{
    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Every_format_is_read_from_a_foreign_device()
    {
        await using var device = await PtyInstrument.ModbusAsync();
        await using var stepped = new SteppedBus(device.Port);
        var cases = new (string Settings, double Value)[]
        {
            (Settings(17, 4, 8, "uint16"), 10),
            (Settings(17, 3, 107, "uint16"), 0xAE41),
            (Settings(17, 3, 108, "int16"), 0x5652),
            (Settings(17, 3, 107, "uint32"), 0xAE415652),
            (Settings(17, 4, 100, "float32-abcd"), 48.37),
            (Settings(17, 4, 102, "float32-cdab"), 48.37),
            (Settings(17, 4, 104, "float32-badc"), 48.37),
            (Settings(17, 4, 106, "float32-dcba"), 48.37),
            (Settings(17, 4, 200, "int16", 0.01), -65.54),
            (Settings(17, 4, 201, "int32"), -65536),
            (Settings(17, 4, 210, "int32-cdab"), -65536),
            (Settings(17, 4, 212, "uint32-cdab"), 0x00012345),
            (Settings(17, 1, 5, "bit"), 1),
            (Settings(17, 1, 6, "bit"), 0),
            (Settings(17, 2, 9, "bit"), 1),
            (Settings(17, 4, 220, "uint16", 0.01, -20), 27.5),
            (Settings(18, 3, 0, "uint16", 0.01), 45.2),
        };
        var probes = cases.Select(x => Probe(stepped.Bus, x.Settings)).ToList();
        await stepped.Bus.OpenAsync(Cancel);
        foreach (var (probe, (settings, value)) in probes.Zip(cases))
        {
            var sample = await stepped.AnsweredAsync(probe);
            Assert.True(sample.Quality == Quality.Good, $"{settings}: {sample.Reason}");
            Assert.Equal(value, sample.Value!.Value, 1e-5);
        }

        await device.TellAsync("set 18 hr 0 4611");
        Assert.Equal(46.11, (await stepped.AnsweredAsync(probes[^1])).Value!.Value, 1e-9);
    }

    [Fact]
    public async Task A_register_that_is_not_there_and_a_device_that_is_not_there_are_told_apart()
    {
        await using var device = await PtyInstrument.ModbusAsync();
        await using var stepped = new SteppedBus(device.Port);
        var wrong = Probe(stepped.Bus, Settings(17, 4, 2000, "uint16"));
        var absent = Probe(stepped.Bus, Settings(99, 4, 0, "uint16"));
        var present = Probe(stepped.Bus, Settings(17, 4, 8, "uint16"));
        await stepped.Bus.OpenAsync(Cancel);

        Assert.Equal(Sample.Fault("address 17 refuses register 2000: it has no such register (code 2)"), await stepped.AnsweredAsync(wrong));
        Assert.Equal(Sample.Missing("no answer from address 99 within 300 ms"), await stepped.UnansweredAsync(absent));
        Assert.Equal(Sample.Good(10), await stepped.AnsweredAsync(present));
    }

    private static IProbe Probe(IProbeBus bus, string settings) =>
        SerialBench.Probe(new ModbusRtuDriver(), bus, "liquor", Quantity.Temperature, settings);

    private static string Settings(int address, int function, int register, string format, double scale = 1, double offset = 0) => $$"""
        { "address": {{address}}, "function": {{function}}, "register": {{register}}, "format": "{{format}}", "scale": {{scale}}, "offset": {{offset}}, "unit": "°C" }
        """;
}
