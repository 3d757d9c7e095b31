using System.Text.Json;
using VatWatch.Testing.Instruments;

namespace VatWatch.Daemon.Tests.HardwareNotes;

/// <summary>The configurations for serial ports, each against the captures beside it, played on a pseudo-terminal.</summary>
[Trait("Starts", "processes")]
public sealed class SerialCaptureTests
{
    // Published pair: register 8 of address 17 holds 10 (Modbus application protocol V1.1b3). 48.37 is 42417AE1 by IEEE 754.
    [Fact]
    public async Task The_transmitters_of_the_pair_answer_as_captured()
    {
        await using var pair = await CaptureReplay.StartAsync("frames", "modbus-rtu", "frames.txt");
        await using var meter = await PtyInstrument.ModbusOnNetworkAsync();
        var rows = await BenchRead.TakeAsync("modbus-rtu", ("/dev/serial/by-id/usb-rs485", pair.Port), ("\"meter.example\"", $"\"127.0.0.1\", \"port\": {meter.Port}"));
        Assert.Equal(48.37, Good(rows["liquor"]), 1e-5);
        Assert.Equal(10, Good(rows["liquor-ph"]));
        Assert.Equal(48.37, rows["heater-power"].GetProperty("raw").GetDouble(), 1e-5);
    }

    // First and last line of the capture of answers: 21.71 and 33.86; of the stream: 44.00 to 45.95 °C, pH 9.900 to 9.744, −702.0 to −674.7 mV.
    [Fact]
    public async Task The_instruments_that_talk_in_lines_are_understood()
    {
        await using var thermometer = await CaptureReplay.StartAsync("asked", "text-line", "asked-temperature.txt");
        await using var electrodes = await CaptureReplay.StartAsync("streamed", "text-line", "streamed-three-columns.txt");
        var rows = await BenchRead.TakeAsync(
            "text-line", ("/dev/serial/by-id/usb-thermometer", thermometer.Port), ("/dev/serial/by-id/usb-electrodes", electrodes.Port));
        Assert.Equal(21.71, Good(rows["liquor"]));
        Assert.InRange(Good(rows["liquor-ph"]), 9.744, 9.900);
        Assert.InRange(Good(rows["liquor-orp"]), -702.0, -674.7);
    }

    private static double Good(JsonElement row)
    {
        Assert.Equal(("good", null), (row.GetProperty("quality").GetString(), row.GetProperty("reason").GetString()));
        return row.GetProperty("value").GetDouble();
    }
}
