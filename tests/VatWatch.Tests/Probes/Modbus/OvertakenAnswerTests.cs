using System.Buffers.Binary;
using Microsoft.Extensions.Time.Testing;
using VatWatch.Probes;
using VatWatch.Probes.Modbus;
using VatWatch.Probes.Serial;
using VatWatch.Probes.Serial.Lines;
using VatWatch.Probes.Serial.Ports;
using VatWatch.Vats.Configuration;

namespace VatWatch.Tests.Probes.Modbus;

/// <summary>A late answer that comes after the answers to later questions, on a device of two registers.</summary>
public sealed class OvertakenAnswerTests : IDisposable
{
    private readonly FakeTimeProvider _time = new();
    private readonly OvertakingPort _port = new();

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Theory]
    [InlineData(1, 2)]
    [InlineData(2, 1)]
    public async Task It_is_not_given_to_the_other_register(int late, int other)
    {
        await using var bus = new SerialBus(new BusId("line"), new SerialSettings { Port = "/dev/null", ReopenAfterSilence = TimeSpan.FromHours(1) }, _time, _ => _port);
        await bus.OpenAsync(Cancel);
        for (var round = 0; round < 3; round++)
        {
            await HoldAsync(bus, late);
            await HoldAsync(bus, other);
        }

        _port.IsWithholding = true;
        Assert.Equal(Quality.Missing, (await TakeAsync(bus, late)).Quality);
        _port.IsWithholding = false;
        await HoldAsync(bus, other);
        _port.IsReleasing = true;
        await HoldAsync(bus, other);
        for (var round = 0; round < 3; round++)
        {
            await HoldAsync(bus, late);
            await HoldAsync(bus, other);
        }
    }

    public void Dispose() => _port.Dispose();

    private async Task HoldAsync(SerialBus bus, int register) => Assert.Equal(Sample.Good(OvertakingPort.ValueOf(register)), await TakeAsync(bus, register));

    private async Task<Sample> TakeAsync(SerialBus bus, int register)
    {
        var definition = new ProbeDefinition(
            new ProbeId("any"), new VatId("madder-lane"), Quantity.Temperature, bus.Id, "modbus-rtu", TimeSpan.FromSeconds(1), SampleUnit.Canonical(Quantity.Temperature));
        var sample = new ModbusProbe(new ModbusSerialLine(bus), definition, new ModbusSettings(17, 3, (ushort)register, RegisterFormat.UInt16, 1)).TakeSampleAsync(Cancel).AsTask();
        while (!sample.IsCompleted)
        {
            _time.Advance(TimeSpan.FromMilliseconds(50));
            await Task.Yield();
        }

        return await sample;
    }

    /// <summary>Answers each register with its own number at once, but for what is withheld; that comes with the next answer after, and before it.</summary>
    private sealed class OvertakingPort : IPort
    {
        private readonly List<byte[]> _withheld = [];
        private IPortSink? _sink;

        public bool IsWithholding { get; set; }

        public bool IsReleasing { get; set; }

        public static ushort ValueOf(int register) => (ushort)(register == 1 ? 4520 : 1000);

        public void Start(IPortSink sink) => _sink = sink;

        public void Restart(Action whenEmpty) => whenEmpty();

        public ValueTask WriteAsync(ReadOnlyMemory<byte> bytes, CancellationToken cancel)
        {
            var frame = new byte[7];
            (frame[0], frame[1], frame[2]) = (17, 3, 2);
            BinaryPrimitives.WriteUInt16BigEndian(frame.AsSpan(3), ValueOf(BinaryPrimitives.ReadUInt16BigEndian(bytes.Span[2..])));
            BinaryPrimitives.WriteUInt16LittleEndian(frame.AsSpan(5), Crc.Modbus(frame.AsSpan(0, 5)));
            if (IsWithholding)
            {
                _withheld.Add(frame);
                return ValueTask.CompletedTask;
            }

            if (IsReleasing)
            {
                _withheld.ForEach(each => _sink!.Received(each));
                _withheld.Clear();
            }

            _sink!.Received(frame);
            return ValueTask.CompletedTask;
        }

        public void Dispose()
        {
        }
    }
}
