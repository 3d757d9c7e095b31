using Microsoft.Extensions.Time.Testing;
using VatWatch.Probes.Modbus;
using VatWatch.Probes.Serial;
using VatWatch.Vats.Configuration;

namespace VatWatch.Tests.Probes.Modbus;

/// <summary>Devices that answer late, lose questions and let them pile up, in made-up time; each answer tells which register it is of.</summary>
public sealed class LateAnswerTests
{
    private const int Lines = 200;
    private const int LateAnswers = 10_000;
    private static readonly TimeSpan Step = TimeSpan.FromMilliseconds(5);

    private readonly FakeTimeProvider _time = new();
    private int _good;
    private int _none;
    private int _wrong;

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Theory]
    [InlineData(600, LateAnswers / 2)]
    [InlineData(2500, LateAnswers / 2)]
    public async Task Thousands_of_late_answers_are_never_given_to_the_wrong_question(int longestStuckMilliseconds, int answers)
    {
        var devices = Enumerable.Range(0, Lines).Select(seed => new LateDevice(_time, seed, longestStuckMilliseconds)).ToList();
        using var stop = CancellationTokenSource.CreateLinkedTokenSource(Cancel);
        var readers = devices.Select(device => Task.Run(() => ReadAsync(device, stop.Token), Cancel)).ToList();
        while (devices.Sum(device => device.SentLate) < answers)
        {
            _time.Advance(Step);
            devices.ForEach(device => device.Deliver());
            await LetRunAsync();
            Assert.DoesNotContain(readers, reader => reader.IsFaulted);
        }

        await stop.CancelAsync();
        await Assert.ThrowsAnyAsync<OperationCanceledException>(() => Task.WhenAll(readers));
        TestContext.Current.TestOutputHelper?.WriteLine($"{_good} good, {_none} without a value, {_wrong} wrong");
        Assert.Equal(0, _wrong);
        Assert.InRange(_good, answers / 4, int.MaxValue);
        Assert.InRange(_none, answers / 2, int.MaxValue);
    }

    private async Task ReadAsync(LateDevice device, CancellationToken cancel)
    {
        var settings = new SerialSettings { Port = "/dev/null", Baud = 115_200, ReplyTimeout = LateDevice.ReplyTimeout, ReopenAfterSilence = TimeSpan.FromHours(1) };
        await using var bus = new SerialBus(new BusId("late"), settings, _time, _ => device);
        var definition = new ProbeDefinition(
            new ProbeId("any"), new VatId("madder-lane"), Quantity.Temperature, bus.Id, "modbus-rtu",
            TimeSpan.FromSeconds(1), SampleUnit.Canonical(Quantity.Temperature));
        await bus.OpenAsync(cancel);
        for (ushort register = 1; ; register++)
        {
            var probe = new ModbusProbe(new ModbusSerialLine(bus), definition, new ModbusSettings(17, 3, register, RegisterFormat.UInt16, 1));
            var sample = await probe.TakeSampleAsync(cancel);
            await Task.Delay(Step, _time, cancel);
            _ = sample.Value is null ? Interlocked.Increment(ref _none)
                : sample.Value == register ? Interlocked.Increment(ref _good)
                : Interlocked.Increment(ref _wrong);
        }
    }

    /// <summary>Lets everything that became due run before time moves on.</summary>
    private static async Task LetRunAsync()
    {
        for (var calm = 0; calm < 3; calm = ThreadPool.PendingWorkItemCount == 0 ? calm + 1 : 0)
        {
            await Task.Yield();
        }

        await Task.Delay(1, Cancel);
    }
}
