using VatWatch.Probes.I2c.Ads1115;
using VatWatch.Testing.Registers;

namespace VatWatch.Tests.Probes.I2c.Ads1115;

/// <summary>What a voltage stands for: electrodes and thermistors, through the converter with its counts.</summary>
public sealed class VoltageMeaningTests
{
    private const string Ratio = "\"nominal\": \"10 kΩ\", \"ratio\": { \"a\": 3.354016e-3, \"b\": 2.569850e-4, \"c\": 2.620131e-6, \"d\": 6.383091e-8 }";
    private const string Curve3 = "\"steinhartHart\": { \"a\": 1.129241e-3, \"b\": 2.341077e-4, \"c\": 8.775468e-8 }";
    private const string Beta = "\"nominal\": \"10 kΩ\", \"beta\": \"3977 K\"";

    /// <summary>Amplifier arithmetic by hand: mV = 1000 (V − zero) / gain.</summary>
    [Theory]
    [InlineData(3, 1.5, 1.5, 0)]
    [InlineData(3, 1.5, 2.4, 300)]
    [InlineData(3, 1.5, 0.9, -200)]
    [InlineData(-3, 1.5, 0.9, 200)]
    [InlineData(1, 0, -0.25, -250)]
    [InlineData(5.25, 1.65, 0.6, -200)]
    public async Task An_electrode_is_freed_of_its_amplifier(double gain, double zero, double volts, double millivolts)
    {
        await using var rig = new I2cRig();
        rig.Bench.With(0x49, new Ads1115Registers { Pins = { [2] = volts } });
        var probe = await rig.OpenAsync(new Ads1115Driver(), $$"""{ "address": "0x49", "input": "ain2", "electrode": { "gain": {{gain}}, "zero": "{{zero}} V" } }""", Quantity.Ph);

        var sample = await probe.TakeSampleAsync(I2cRig.Stop);
        Assert.Equal(millivolts, sample.Value!.Value, 0.5 * 0.125 / Math.Abs(gain));
        Assert.True(probe.Definition.Unit.IsElectrode);
    }

    [Theory]
    [InlineData("", true)]
    [InlineData(", \"unit\": \"electrode mV\"", true)]
    [InlineData(", \"unit\": \"mV\"", false)]
    public async Task An_ORP_electrode_comes_bare_or_finished(string unit, bool isElectrode)
    {
        await using var rig = new I2cRig();
        rig.Bench.With(0x49, new Ads1115Registers { Pins = { [0] = 0.9 } });
        var probe = await rig.OpenAsync(new Ads1115Driver(), $$"""{ "address": "0x49", "input": "ain0", "electrode": { "gain": 1, "zero": "1.5 V"{{unit}} } }""", Quantity.Orp);

        Assert.Equal(isElectrode, probe.Definition.Unit.IsElectrode);
        Assert.Equal(-600, probe.Definition.Unit.ToCanonical((await probe.TakeSampleAsync(I2cRig.Stop)).Value!.Value), 0.1);
    }

    [Fact]
    public async Task Plain_volts_of_an_ORP_instrument_become_millivolts()
    {
        await using var rig = new I2cRig();
        rig.Bench.With(0x48, new Ads1115Registers { Pins = { [0] = 0, [1] = 0.64 } });
        var probe = await rig.OpenAsync(new Ads1115Driver(), """{ "address": "0x48", "input": "ain0-ain1", "volts": {} }""", Quantity.Orp);

        Assert.Equal(-640, probe.Definition.Unit.ToCanonical((await probe.TakeSampleAsync(I2cRig.Stop)).Value!.Value), 0.0001);
    }

    /// <summary>
    /// Resistances of two common 10 kΩ parts at these temperatures: the tables of their makers, from memory, recomputed with the published
    /// coefficients. The tolerance is that of the table and one count of the converter.
    /// </summary>
    [Theory]
    [InlineData(Ratio, 32554.8, 0, 0.03)]
    [InlineData(Ratio, 10000.2, 25, 0.02)]
    [InlineData(Ratio, 5330.0, 40, 0.02)]
    [InlineData(Ratio, 3605.3, 50, 0.02)]
    [InlineData(Ratio, 2490.0, 60, 0.03)]
    [InlineData(Ratio, 1256.4, 80, 0.05)]
    [InlineData(Ratio, 677.3, 100, 0.08)]
    [InlineData(Curve3, 32650, 0, 0.03)]
    [InlineData(Curve3, 19900, 10, 0.03)]
    [InlineData(Curve3, 10000, 25, 0.02)]
    [InlineData(Curve3, 5327, 40, 0.03)]
    [InlineData(Curve3, 3603, 50, 0.03)]
    [InlineData(Curve3, 2488, 60, 0.03)]
    [InlineData(Beta, 32554.8, 0.76, 0.03)]
    [InlineData(Beta, 5330.0, 39.76, 0.02)]
    [InlineData(Beta, 3605.3, 49.69, 0.02)]
    [InlineData(Beta, 1256.4, 79.90, 0.04)]
    public async Task A_thermistor_reads_what_its_table_says(string part, double ohm, double celsius, double tolerance)
    {
        foreach (var between in new[] { "tap-and-ground", "supply-and-tap" })
        {
            await using var rig = new I2cRig();
            var volts = 3.3 * (between == "tap-and-ground" ? ohm / (ohm + 10_000) : 10_000 / (ohm + 10_000));
            rig.Bench.With(0x48, new Ads1115Registers { Pins = { [0] = volts } });
            var probe = await rig.OpenAsync(new Ads1115Driver(), $$"""{ "address": "0x48", "input": "ain0", "thermistor": { "series": "10 kΩ", "between": "{{between}}", "supply": "3.3 V", {{part}} } }""");

            var sample = await probe.TakeSampleAsync(I2cRig.Stop);
            Assert.Equal(Quality.Good, sample.Quality);
            Assert.Equal(celsius, sample.Value!.Value, tolerance);
        }
    }

    /// <summary>Worked by hand: 3603 Ω below 10 kΩ at 3.3 V gives 0.87406 V, code 6993 of 4.096 V, 3603.3 Ω and 49.98 °C by curve 3.</summary>
    [Fact]
    public async Task The_worked_example_comes_out_to_the_count()
    {
        await using var rig = new I2cRig();
        rig.Bench.With(0x48, new Ads1115Registers { Pins = { [0] = 3.3 * 3603 / 13603 } });
        var probe = await rig.OpenAsync(new Ads1115Driver(), $$"""{ "address": "0x48", "input": "ain0", "thermistor": { "series": "10 kΩ", "supply": "3.3 V", {{Curve3}} } }""");

        var sample = await probe.TakeSampleAsync(I2cRig.Stop);
        Assert.Contains("48 R 1B 51", rig.Bench.Log.Lines);
        Assert.Equal(6993, 0x1B51);
        Assert.Equal(49.98, sample.Value!.Value, 0.01);
    }

    [Theory]
    [InlineData(3.0)]
    [InlineData(3.3)]
    [InlineData(3.6)]
    public async Task Measuring_the_supply_takes_its_error_out(double supply)
    {
        await using var rig = new I2cRig();
        rig.Bench.With(0x48, new Ads1115Registers { Pins = { [0] = supply * 3605.3 / 13605.3, [3] = supply } });
        var probe = await rig.OpenAsync(new Ads1115Driver(), $$"""{ "address": "0x48", "input": "ain0", "thermistor": { "series": "10 kΩ", "supplyInput": "ain3", {{Ratio}} } }""");

        Assert.Equal(50, (await probe.TakeSampleAsync(I2cRig.Stop)).Value!.Value, 0.03);
    }

    [Theory]
    [InlineData("tap-and-ground", 3.3, "thermistor circuit open: its divider reads 3.300 V of 3.300 V")]
    [InlineData("tap-and-ground", 0.0, "thermistor shorted: its divider reads 0.000 V of 3.300 V")]
    [InlineData("supply-and-tap", 3.3, "thermistor shorted: its divider reads 3.300 V of 3.300 V")]
    [InlineData("supply-and-tap", 0.0, "thermistor circuit open: its divider reads 0.000 V of 3.300 V")]
    public async Task Open_and_shorted_circuits_are_faults(string between, double volts, string reason)
    {
        await using var rig = new I2cRig();
        rig.Bench.With(0x48, new Ads1115Registers { Pins = { [0] = volts, [1] = 3.3 } });
        var probe = await rig.OpenAsync(new Ads1115Driver(), $$"""{ "address": "0x48", "input": "ain0", "thermistor": { "series": "10 kΩ", "between": "{{between}}", "supplyInput": "ain1", {{Beta}} } }""");

        var sample = await probe.TakeSampleAsync(I2cRig.Stop);
        Assert.Equal((Quality.Fault, (double?)null, reason), (sample.Quality, sample.Value, sample.Reason));
    }

    [Fact]
    public async Task A_divider_without_supply_and_a_part_outside_its_equation_are_told()
    {
        await using var rig = new I2cRig();
        var chip = new Ads1115Registers { Pins = { [0] = 0.1, [1] = 0.2 } };
        rig.Bench.With(0x48, chip);
        var probe = await rig.OpenAsync(new Ads1115Driver(), $$"""{ "address": "0x48", "input": "ain0", "thermistor": { "series": "10 kΩ", "supplyInput": "ain1", {{Ratio}} } }""");

        Assert.Equal("the supply of the thermistor's divider reads 0.200 V; check it", (await probe.TakeSampleAsync(I2cRig.Stop)).Reason);

        chip.Pins[0] = 3.3 * 0.007;
        chip.Pins[1] = 3.3;
        var hot = await probe.TakeSampleAsync(I2cRig.Stop);
        Assert.Equal(Quality.Suspect, hot.Quality);
        Assert.InRange(hot.Value!.Value, 125, 250);
    }
}
