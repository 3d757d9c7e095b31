using VatWatch.Probes;
using VatWatch.Probes.Serial;
using VatWatch.Testing.Instruments;

namespace VatWatch.Tests.Probes.Serial;

/// <summary>The way of other systems, tried on this one.</summary>
[Trait("Starts", "processes")]
public sealed class StreamPortTests
{
    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task A_port_read_as_a_stream_asks_hears_a_hang_up_and_closes()
    {
        await using var instrument = await PtyInstrument.AskedAsync();
        await using var bus = new SerialBus(
            new BusId("bench"), new SerialSettings { Port = instrument.Port }, TimeProvider.System, settings => new StreamPort(SerialDevice.Configure(settings)));
        var probe = SerialBench.Text(bus, "liquor", Quantity.Temperature, """{ "ask": "T?\\r", "pattern": "^T=(?<value>[-+0-9.]+)C$", "unit": "°C" }""");
        for (var round = 0; round < 3; round++)
        {
            await bus.OpenAsync(Cancel);
            Assert.Equal(Sample.Good(45.2), await probe.TakeSampleAsync(Cancel));
            var watch = bus.WatchForLossAsync(Cancel);
            await instrument.TellAsync("hangup");
            await Assert.ThrowsAsync<BusLostException>(() => watch.WaitAsync(TimeSpan.FromSeconds(5), Cancel));
            await Assert.ThrowsAsync<BusLostException>(async () => await probe.TakeSampleAsync(Cancel));
            await bus.CloseAsync().AsTask().WaitAsync(TimeSpan.FromSeconds(3), Cancel);
            await instrument.TellAsync("return");
        }
    }
}
