using Iot.Device.UFire;
using VatWatch.Probes.I2c.UFireIse;
using VatWatch.Testing.Registers;
using Temperature = UnitsNet.Temperature;

namespace VatWatch.Tests.Probes.I2c.UFireIse;

/// <summary>The electrode board, which takes 0.77 s for a reading, so few are made here.</summary>
public sealed class UFireIseChipTests
{
    /// <summary>Trace recorded with version 4.2.0 of the library; the float 177.48 is 0x43317AE1.</summary>
    [Fact]
    public async Task A_reading_puts_these_bytes_on_the_wire()
    {
        await using var rig = new I2cRig();
        rig.Bench.With(0x3F, new UFireIseRegisters { Millivolts = 177.48f });
        var probe = await rig.OpenAsync(new UFireIseDriver(), "{}", Quantity.Ph);

        Assert.Equal(177.48, (await probe.TakeSampleAsync(I2cRig.Stop)).Value!.Value, 0.005);
        Assert.Equal(["3F W 27 50", "3F W 01", "3F R E1 7A 31 43"], rig.Bench.Log.Take());
        Assert.True(probe.Definition.Unit.IsElectrode);
    }

    /// <summary>The library's pH class takes −1 mV for a failure and drops the sign of a potential; millivolts do neither.</summary>
    [Theory]
    [InlineData(-1.0f)]
    [InlineData(500.0f)]
    [InlineData(-640.25f)]
    public async Task The_sign_of_the_electrode_is_kept(float millivolts)
    {
        await using var rig = new I2cRig();
        rig.Bench.With(0x3F, new UFireIseRegisters { Millivolts = millivolts });
        var probe = await rig.OpenAsync(new UFireIseDriver(), """{ "unit": "mV" }""", Quantity.Orp);

        Assert.Equal(millivolts, (await probe.TakeSampleAsync(I2cRig.Stop)).Value!.Value, 0.005);
        Assert.False(probe.Definition.Unit.IsElectrode);
    }

    [Theory]
    [InlineData(float.NaN, "µFire ISE at 0x3F on I2C bus 1 sent a value that is no number")]
    [InlineData(1500f, "the electrode board says 1500.0 mV; wanted -1024 to 1024 mV: check the electrode's plug")]
    [InlineData(float.PositiveInfinity, "µFire ISE at 0x3F on I2C bus 1 sent a value that is no number")]
    public async Task What_is_no_potential_is_a_fault(float millivolts, string reason)
    {
        await using var rig = new I2cRig();
        rig.Bench.With(0x3F, new UFireIseRegisters { Millivolts = millivolts });
        var probe = await rig.OpenAsync(new UFireIseDriver(), "{}", Quantity.Ph);

        var sample = await probe.TakeSampleAsync(I2cRig.Stop);
        Assert.Equal((Quality.Fault, (double?)null, reason), (sample.Quality, sample.Value, sample.Reason));
    }

    [Fact]
    public async Task A_failed_transfer_is_repeated_and_the_board_measures_once()
    {
        await using var rig = new I2cRig();
        var board = new UFireIseRegisters { Millivolts = 12.5f };
        rig.Bench.With(0x3F, board);
        rig.Bench.Faults.FailAfter(0);
        rig.Bench.Faults.FailAfter(3);
        var probe = await rig.OpenAsync(new UFireIseDriver(), "{}", Quantity.Ph);

        Assert.Equal(12.5, (await probe.TakeSampleAsync(I2cRig.Stop)).Value!.Value, 0.005);
        Assert.Equal(["3F !", "3F W 27 50", "3F W 01", "3F !", "3F R 00 00 48 41"], rig.Bench.Log.Take());
        Assert.Equal(1, board.Tasks);
    }

    /// <summary>Why only millivolts are taken; when this fails, a new version of the library has been mended.</summary>
    [Fact]
    public void The_librarys_own_pH_and_ORP_are_still_wrong()
    {
        using var bench = new FakeI2cBench();
        var board = new UFireIseRegisters { Millivolts = 0 };
        using var bus = bench.With(0x3F, board).Open(1);
        var device = bus.CreateDevice(0x3F);

        var ph = new UFirePh(device);
        Assert.False(ph.TryMeasurepH(out var first, Temperature.FromDegreesCelsius(25)));
        Assert.True(float.IsNaN(first));

        board.Millivolts = 500;
        ph.Ph = 7;
        ph.TryMeasurepH(out var acid, Temperature.FromDegreesCelsius(25));
        Assert.Equal(1.446, acid, 0.01);

        board.Millivolts = 210;
        Assert.False(new UFireOrp(device).TryMeasureOxidationReductionPotential(out var orp));
        Assert.Equal(210, orp.Millivolts, 0.01);
    }
}
