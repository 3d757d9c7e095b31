using VatWatch.Probes;
using VatWatch.Probes.Modbus;
using VatWatch.Vats.Configuration;

namespace VatWatch.Tests.Probes.Modbus;

public sealed class ModbusProbeTests
{
    [Theory]
    [InlineData("00004235", "holds 00004235, which is 2.4e-41 as float32-abcd; the order of its bytes may be another: 45.25 as float32-cdab")]
    [InlineData("7F000000", "holds 7F000000, which is 1.7e+38 as float32-abcd; no order of its bytes makes it a reading")]
    public async Task A_float_that_no_instrument_gives_is_a_fault_and_tells_what_the_other_orders_give(string bytes, string words)
    {
        var sample = await SampleOf(bytes);
        Assert.Equal(Quality.Fault, sample.Quality);
        Assert.EndsWith(words, sample.Reason, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("42350000", 45.25)]
    [InlineData("00000000", 0)]
    [InlineData("3586A000", 1.0028e-6)]
    public async Task Other_floats_are_readings(string bytes, double value)
    {
        var sample = await SampleOf(bytes);
        Assert.Equal(Quality.Good, sample.Quality);
        Assert.Equal(value, sample.Value!.Value, 1e-9);
    }

    private static async Task<Sample> SampleOf(string bytes)
    {
        var definition = new ProbeDefinition(
            new ProbeId("liquor"), new VatId("madder-lane"), Quantity.Temperature, new BusId("line"), "modbus-rtu", TimeSpan.FromSeconds(1), SampleUnit.Canonical(Quantity.Temperature));
        var probe = new ModbusProbe(new Answering(Convert.FromHexString(bytes)), definition, new ModbusSettings(17, 4, 100, RegisterFormat.FloatAbcd, 1));
        return await probe.TakeSampleAsync(TestContext.Current.CancellationToken);
    }

    private sealed class Answering(byte[] bytes) : IModbusWire
    {
        public ValueTask<ModbusAnswer> AskAsync(ModbusSettings settings, TimeSpan every, CancellationToken cancel) => ValueTask.FromResult(new ModbusAnswer(bytes, null, null));
    }
}
