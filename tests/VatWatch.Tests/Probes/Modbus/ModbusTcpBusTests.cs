using System.Globalization;
using System.Net;
using System.Net.Sockets;
using Microsoft.Extensions.Time.Testing;
using VatWatch.Probes;
using VatWatch.Probes.Modbus;
using VatWatch.Testing;
using VatWatch.Testing.Instruments;
using VatWatch.Tests.Probes.Serial;

namespace VatWatch.Tests.Probes.Modbus;

/// <summary>Devices on a network: pymodbus in another process, and a peer of our own for what it does not do.</summary>
[Trait("Starts", "processes")]
public sealed class ModbusTcpBusTests
{
    private readonly FakeTimeProvider _time = new();

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Numbers_and_bits_are_read_from_a_foreign_device()
    {
        await using var device = await PtyInstrument.ModbusOnNetworkAsync();
        await using var bus = Bus(device.Port);
        await bus.OpenAsync(Cancel);
        Assert.Equal(48.37, (await Probe(bus, 17, 4, 100, "float32-abcd").TakeSampleAsync(Cancel)).Value!.Value, 1e-5);
        Assert.Equal(Sample.Good(-65536), await Probe(bus, 17, 4, 210, "int32-cdab").TakeSampleAsync(Cancel));
        Assert.Equal(Sample.Good(1), await Probe(bus, 17, 1, 5, "bit").TakeSampleAsync(Cancel));
        Assert.Equal(Sample.Good(0), await Probe(bus, 17, 2, 8, "bit").TakeSampleAsync(Cancel));
        Assert.Equal(Sample.Fault("address 17 refuses register 2000: it has no such register (code 2)"), await Probe(bus, 17, 4, 2000, "uint16").TakeSampleAsync(Cancel));
        Assert.Equal(Sample.Missing("no answer from address 99 within 500 ms"), await _time.PassAsync(Probe(bus, 99, 4, 8, "uint16").TakeSampleAsync(Cancel).AsTask()));
        Assert.Equal(Sample.Good(10), await Probe(bus, 17, 4, 8, "uint16").TakeSampleAsync(Cancel));
    }

    [Fact]
    public async Task A_late_answer_is_not_taken_for_that_of_the_next_question()
    {
        using var listener = new TcpListener(IPAddress.Loopback, 0);
        listener.Start();
        await using var bus = Bus($"{((IPEndPoint)listener.LocalEndpoint).Port}");
        await bus.OpenAsync(Cancel);
        using var peer = await listener.AcceptTcpClientAsync(Cancel);
        var probe = Probe(bus, 1, 3, 0, "uint16");

        var unanswered = probe.TakeSampleAsync(Cancel).AsTask();
        var stream = peer.GetStream();
        var first = await RequestAsync(stream);
        Assert.Equal(Quality.Missing, (await _time.PassAsync(unanswered)).Quality);
        Assert.Equal("000100000006010300000001", Convert.ToHexString(first));

        var second = probe.TakeSampleAsync(Cancel).AsTask();
        var asked = await RequestAsync(stream);
        await stream.WriteAsync(Answer(first, 0x1111), Cancel);
        await stream.WriteAsync(Answer(asked, 0x0007), Cancel);
        Assert.Equal(Sample.Good(7), await second);
    }

    [Fact]
    public async Task A_device_that_hangs_up_or_speaks_something_else_loses_the_bus()
    {
        using var listener = new TcpListener(IPAddress.Loopback, 0);
        listener.Start();
        await using var bus = Bus($"{((IPEndPoint)listener.LocalEndpoint).Port}");
        var probe = Probe(bus, 1, 3, 0, "uint16");
        foreach (var (bytes, reason) in new[] { ("HTTP/1.1 400 Bad", "does not speak Modbus: it sent 485454502F312E"), ("", "was lost") })
        {
            await bus.OpenAsync(Cancel);
            using (var peer = await listener.AcceptTcpClientAsync(Cancel))
            {
                await peer.GetStream().WriteAsync(System.Text.Encoding.ASCII.GetBytes(bytes), Cancel);
            }

            Assert.Contains(reason, (await Assert.ThrowsAsync<BusLostException>(async () => await probe.TakeSampleAsync(Cancel))).Message, StringComparison.Ordinal);
            await bus.CloseAsync();
        }

        listener.Stop();
        var refused = await Assert.ThrowsAsync<BusLostException>(async () => await bus.OpenAsync(Cancel));
        Assert.EndsWith("it refuses the port", refused.Message, StringComparison.Ordinal);
    }

    private static async Task<byte[]> RequestAsync(NetworkStream stream)
    {
        var request = new byte[12];
        await stream.ReadExactlyAsync(request, Cancel);
        return request;
    }

    private static byte[] Answer(byte[] request, ushort value) => [request[0], request[1], 0, 0, 0, 5, request[6], 3, 2, (byte)(value >> 8), (byte)(value & 0xFF)];

    private ModbusTcpBus Bus(string port) =>
        new(new BusId("network"), "127.0.0.1", int.Parse(port, CultureInfo.InvariantCulture), TimeSpan.FromMilliseconds(500), _time);

    private static IProbe Probe(ModbusTcpBus bus, int address, int function, int register, string format) => SerialBench.Probe(
        new ModbusTcpDriver(), bus, "liquor", Quantity.Temperature,
        $$"""{ "address": {{address}}, "function": {{function}}, "register": {{register}}, "format": "{{format}}", "unit": "°C" }""");
}
