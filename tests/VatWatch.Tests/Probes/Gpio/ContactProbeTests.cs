using System.Device.Gpio;
using VatWatch.Probes.Blocking;
using VatWatch.Probes.Gpio;
using VatWatch.Probes;
using VatWatch.Testing.Registers;
using VatWatch.Tests.Probes.I2c;

namespace VatWatch.Tests.Probes.Gpio;

/// <summary>Contacts on lines of a chip, through the library's own controller.</summary>
public sealed class ContactProbeTests : IDisposable
{
    private readonly FakeGpioLines _chip = new();

    public void Dispose() => _chip.Dispose();

    [Theory]
    [InlineData("""{ "line": 17 }""", Quantity.Heater, PinMode.InputPullUp, 1)]
    [InlineData("""{ "line": 17, "closed": "off" }""", Quantity.HeaterCommand, PinMode.InputPullUp, 0)]
    [InlineData("""{ "line": 17 }""", Quantity.Level, PinMode.InputPullUp, 100)]
    [InlineData("""{ "line": 17, "to": "supply" }""", Quantity.Heater, PinMode.InputPullDown, 1)]
    [InlineData("""{ "line": 17, "to": "supply", "closed": "off" }""", Quantity.Level, PinMode.InputPullDown, 0)]
    public async Task A_closed_contact_means_what_the_settings_say_and_an_open_one_the_other(string settings, Quantity measures, PinMode mode, double closed)
    {
        await using var bus = Bus();
        var probe = I2cRig.Make(new ContactDriver(), settings, measures, bus);
        await bus.OpenAsync(I2cRig.Stop);

        _chip.Closed[17] = mode == PinMode.InputPullDown;
        Assert.Equal(Sample.Good(closed), await probe.TakeSampleAsync(I2cRig.Stop));
        Assert.Equal(mode, _chip.Modes[17]);
        _chip.Closed.Clear();
        Assert.Equal(Sample.Good((measures == Quantity.Level ? 100 : 1) - closed), await probe.TakeSampleAsync(I2cRig.Stop));
    }

    [Fact]
    public async Task A_line_that_nothing_holds_is_a_fault()
    {
        await using var bus = Bus();
        var probe = I2cRig.Make(new ContactDriver(), """{ "line": 4, "pull": false }""", Quantity.Level, bus);
        await bus.OpenAsync(I2cRig.Stop);
        Assert.Equal(
            Sample.Fault("line 4 of GPIO chip 0 changes within 40 ms; check for a loose wire, a long cable beside mains, or a missing pull resistor"),
            await probe.TakeSampleAsync(I2cRig.Stop));
    }

    [Fact]
    public async Task A_line_of_another_program_and_a_chip_that_is_not_there_are_told()
    {
        await using var bus = Bus();
        _chip.Taken.Add(17);
        var probe = I2cRig.Make(new ContactDriver(), """{ "line": 17 }""", Quantity.Heater, bus);
        await bus.OpenAsync(I2cRig.Stop);
        Assert.Equal(
            Sample.Fault("line 17 of GPIO chip 0 cannot be read (Error 16 while opening the line); another program or the kernel may use it"),
            await probe.TakeSampleAsync(I2cRig.Stop));

        // Chip 31 is on no computer that runs this.
        await using var real = new GpioBusKind().Read(new BusId("pi"), I2cRig.Node("""{ "chip": 31 }""", out _)).Create(new WatchClock(TimeProvider.System));
        var lost = await Assert.ThrowsAsync<BusLostException>(async () => await real.OpenAsync(I2cRig.Stop));
        Assert.Equal("there is no /dev/gpiochip31; wanted a chip with lines: 'ls /dev/gpiochip*' shows those there are", lost.Message);
    }

    [Theory]
    [InlineData("""{ "line": 17 }""", Quantity.Ph, "settings is for the driver \"contact\" on a probe that measures \"ph\"; wanted a probe that measures \"heater\", \"heater-command\" or \"level\".")]
    [InlineData("{}", Quantity.Level, "settings.line is missing; wanted a whole number from 0 to 511.")]
    [InlineData("""{ "line": 1, "to": "air" }""", Quantity.Level, "settings.to is \"air\"; wanted one of \"ground\", \"supply\".")]
    public void One_sentence_says_what_is_wrong(string settings, Quantity measures, string sentence) =>
        Assert.Equal([sentence], I2cRig.FaultsOf(new ContactDriver(), settings, measures));

    private BlockingBus<GpioLines> Bus() =>
        (BlockingBus<GpioLines>)new GpioBusKind { Open = _ => _chip }.Read(new BusId("pi"), I2cRig.Node("{}", out _)).Create(new WatchClock(TimeProvider.System));
}
