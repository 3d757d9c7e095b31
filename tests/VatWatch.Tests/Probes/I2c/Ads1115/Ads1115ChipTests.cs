using VatWatch.Probes.I2c.Ads1115;
using VatWatch.Testing.Registers;

namespace VatWatch.Tests.Probes.I2c.Ads1115;

/// <summary>The converter on the wire. Values of the register description: a count is full scale / 32768, registers are words, high byte first.</summary>
public sealed class Ads1115ChipTests
{
    private const string Volts = """{ "address": "0x48", "input": "ain0", "average": 1, "volts": {} }""";

    [Fact]
    public async Task Setting_up_and_reading_put_these_bytes_on_the_wire()
    {
        await using var rig = new I2cRig();
        rig.Bench.With(0x48, new Ads1115Registers { Pins = { [0] = 2.048 } });
        var probe = await rig.OpenAsync(new Ads1115Driver(), Volts, Quantity.Orp);

        var sample = await probe.TakeSampleAsync(I2cRig.Stop);

        // Set-up: trace of the library's constructor, recorded with version 4.2.0. Then the reading, and the look at what was set.
        Assert.Equal(
            [
                "48 W 01 C3 03", "48 W 01 R C3 03", "48 W 01 C3 03", "48 W 01 R C3 03", "48 W 02 80 00", "48 W 03 7F FF",
                "48 W 01 C3 03", "48 W 01 R C3 03", "48 W 00", "48 R 40 00", "48 W 01 R C3 03",
            ],
            rig.Bench.Log.Take());
        Assert.Equal(2.048, sample.Value!.Value, 12);

        await probe.TakeSampleAsync(I2cRig.Stop);
        Assert.Equal(["48 W 01 C3 03", "48 W 01 R C3 03", "48 W 00", "48 R 40 00", "48 W 01 R C3 03"], rig.Bench.Log.Take());
    }

    /// <summary>
    /// A conversion at 8/s takes 6.25 periods of 50 Hz and 7.5 of 60 Hz, so the next meets the hum a quarter or a half of a period later: four
    /// cancel it. What one conversion leaves of 100 mV is 3.6 and 4.2 mV: sin(x) / x of 6.25 and 7.5 periods.
    /// </summary>
    [Theory]
    [InlineData(6.25)]
    [InlineData(7.5)]
    public async Task Hum_of_the_mains_averages_out(double periods)
    {
        await using var rig = new I2cRig();
        var left = 0.1 * Math.Abs(Math.Sin(Math.PI * periods)) / (Math.PI * periods);
        rig.Bench.With(0x48, new Ads1115Registers { Pins = { [0] = 1 }, Ripple = conversion => left * Math.Cos(2 * Math.PI * periods * conversion + 0.7) });
        var one = await rig.OpenAsync(new Ads1115Driver(), Volts, Quantity.Orp);
        var mean = await rig.OpenAsync(new Ads1115Driver(), Volts.Replace("\"average\": 1, ", "", StringComparison.Ordinal), Quantity.Orp);

        Assert.InRange(Math.Abs((await one.TakeSampleAsync(I2cRig.Stop)).Value!.Value - 1), 0.0015, 0.0045);
        Assert.Equal(1, (await mean.TakeSampleAsync(I2cRig.Stop)).Value!.Value, 0.0001);
    }

    [Theory]
    [InlineData("6.144 V", 187.5)]
    [InlineData("4.096 V", 125)]
    [InlineData("2.048 V", 62.5)]
    [InlineData("1.024 V", 31.25)]
    [InlineData("512 mV", 15.625)]
    [InlineData("0.256 V", 7.8125)]
    public async Task A_count_is_worth_what_the_range_says(string range, double microvolts)
    {
        await using var rig = new I2cRig();
        var chip = new Ads1115Registers { ForcedCode = -1 };
        rig.Bench.With(0x4B, chip);
        var probe = await rig.OpenAsync(new Ads1115Driver(), $$"""{ "address": "0x4B", "input": "ain0-ain1", "range": "{{range}}", "volts": {} }""", Quantity.Orp);

        Assert.Equal(-microvolts * 1e-6, (await probe.TakeSampleAsync(I2cRig.Stop)).Value!.Value, 12);
        chip.ForcedCode = 16384;
        Assert.Equal(16384 * microvolts * 1e-6, (await probe.TakeSampleAsync(I2cRig.Stop)).Value!.Value, 12);
    }

    [Theory]
    [InlineData("ain0", 0.1)]
    [InlineData("ain1", 0.4)]
    [InlineData("ain2", 0.9)]
    [InlineData("ain3", 1.6)]
    [InlineData("ain0-ain1", -0.3)]
    [InlineData("ain0-ain3", -1.5)]
    [InlineData("ain1-ain3", -1.2)]
    [InlineData("ain2-ain3", -0.7)]
    public async Task Each_word_selects_its_input(string input, double volts)
    {
        await using var rig = new I2cRig();
        rig.Bench.With(0x48, new Ads1115Registers { Pins = { [0] = 0.1, [1] = 0.4, [2] = 0.9, [3] = 1.6 } });
        var probe = await rig.OpenAsync(new Ads1115Driver(), $$"""{ "address": "0x48", "input": "{{input}}", "volts": {} }""", Quantity.Orp);

        Assert.Equal(volts, (await probe.TakeSampleAsync(I2cRig.Stop)).Value!.Value, 0.5 * 125e-6);
    }

    [Fact]
    public async Task Probes_that_share_a_chip_never_get_each_others_voltage()
    {
        await using var rig = new I2cRig();
        rig.Bench.With(0x48, new Ads1115Registers { LooksPerConversion = 3, Pins = { [0] = 0.25, [1] = 1.5, [3] = 3 } });
        var probes = new[] { ("ain0", "4.096 V", 8, 0.25), ("ain1", "2.048 V", 860, 1.5), ("ain3", "4.096 V", 128, 3.0) };
        var made = new List<(VatWatch.Probes.IProbe Probe, double Volts)>();
        foreach (var (input, range, rate, volts) in probes)
        {
            made.Add((await rig.OpenAsync(new Ads1115Driver(), $$"""{ "address": "0x48", "input": "{{input}}", "range": "{{range}}", "rate": {{rate}}, "volts": {} }""", Quantity.Orp), volts));
        }

        for (var round = 0; round < 50; round++)
        {
            foreach (var (probe, volts) in made)
            {
                Assert.Equal(volts, (await probe.TakeSampleAsync(I2cRig.Stop)).Value!.Value, 125e-6);
            }
        }
    }

    [Fact]
    public async Task A_chip_that_lost_its_supply_for_a_moment_is_set_up_anew_and_never_read_as_zero()
    {
        await using var rig = new I2cRig();
        var chip = new Ads1115Registers { Pins = { [0] = 2.048 } };
        rig.Bench.With(0x48, chip);
        var probe = await rig.OpenAsync(new Ads1115Driver(), Volts, Quantity.Orp);
        await probe.TakeSampleAsync(I2cRig.Stop);

        chip.RestartBeforeResult = 0;
        Assert.Equal(2.048, (await probe.TakeSampleAsync(I2cRig.Stop)).Value!.Value, 12);

        // Twice in one sample is no chance any more.
        chip.RestartBeforeResult = 0;
        chip.NeverReady = false;
        rig.Bench.With(0x48, new RestlessChip(chip));
        var sample = await probe.TakeSampleAsync(I2cRig.Stop);
        Assert.Equal(Quality.Fault, sample.Quality);
        Assert.Equal("ADS1115 at 0x48 on I2C bus 1: its configuration is 0x0583 where 0x4303 was written; check its supply, and that no other program uses it", sample.Reason);
    }

    [Theory]
    [InlineData(5.0)]
    [InlineData(-5.0)]
    public async Task A_voltage_beyond_the_range_is_a_fault(double volts)
    {
        await using var rig = new I2cRig();
        rig.Bench.With(0x48, new Ads1115Registers { Pins = { [0] = volts } });
        var probe = await rig.OpenAsync(new Ads1115Driver(), Volts, Quantity.Orp);

        var sample = await probe.TakeSampleAsync(I2cRig.Stop);
        Assert.Equal((Quality.Fault, (double?)null), (sample.Quality, sample.Value));
        Assert.Equal("the voltage at ain0 is beyond the range of 4.096 V; check the wiring, or choose a wider range", sample.Reason);
    }

    [Fact]
    public async Task A_conversion_that_never_ends_is_a_fault()
    {
        await using var rig = new I2cRig();
        rig.Bench.With(0x48, new Ads1115Registers { NeverReady = true });
        rig.Bench.Log.Keeps = false;
        var probe = await rig.OpenAsync(new Ads1115Driver(), Volts, Quantity.Orp);

        var sample = await probe.TakeSampleAsync(I2cRig.Stop);
        Assert.Equal(Quality.Fault, sample.Quality);
        Assert.Equal("ADS1115 at 0x48 on I2C bus 1 began a conversion and did not finish it; check its supply", sample.Reason);
    }

    /// <summary>Loses its supply before every result.</summary>
    private sealed class RestlessChip(Ads1115Registers chip) : IRegisterChip
    {
        public void Write(ReadOnlySpan<byte> bytes) => chip.Write(bytes);

        public void Read(Span<byte> bytes)
        {
            chip.RestartBeforeResult ??= 0;
            chip.Read(bytes);
        }
    }
}
