using Microsoft.Extensions.Time.Testing;
using VatWatch.Probes.Modbus;
using VatWatch.Probes.Serial;
using VatWatch.Testing;
using VatWatch.Vats.Configuration;

namespace VatWatch.Tests.Probes.Modbus;

/// <summary>A healthy device beside dead ones, and on lines that lose frames, in made-up time with the reply timeout that is the default.</summary>
[Trait("Campaign", "faults")]
public sealed class NeighbourTests
{
    private static readonly TimeSpan Step = TimeSpan.FromMilliseconds(50);

    private readonly FakeTimeProvider _time = new();

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Dead_neighbours_and_lost_frames_leave_a_healthy_device_its_beat()
    {
        var alone = new Line(_time, 0, 0, TimeSpan.FromSeconds(1), 1);
        var one = new Line(_time, 0, 1, TimeSpan.FromSeconds(1), 2);
        var five = new Line(_time, 0, 5, TimeSpan.FromSeconds(1), 3);
        var twentieth = Enumerable.Range(10, 8).Select(seed => new Line(_time, 0.05, 0, TimeSpan.FromSeconds(1), seed)).ToList();
        var third = Enumerable.Range(20, 8).Select(seed => new Line(_time, 0.3, 0, TimeSpan.FromSeconds(5), seed)).ToList();
        Line[] all = [alone, one, five, .. twentieth, .. third];
        using var stop = CancellationTokenSource.CreateLinkedTokenSource(Cancel);
        var readers = all.SelectMany(line => line.Start(stop.Token)).ToList();
        for (var passed = TimeSpan.Zero; passed < TimeSpan.FromSeconds(60); passed += Step)
        {
            _time.Advance(Step);
            Array.ForEach(all, line => line.Port.Deliver());
            await LetRunAsync();
            Assert.DoesNotContain(readers, reader => reader.IsFaulted);
        }

        await stop.CancelAsync();
        await Assert.ThrowsAnyAsync<OperationCanceledException>(() => Task.WhenAll(readers));
        Assert.Equal(0, all.Sum(line => line.Wrong));
        Hold("beside one dead device, 1 s", 1 / 1.5 * alone.Good, 7, one);
        Hold("beside five dead devices, 1 s", 1 / 1.5 * alone.Good, 7, five);
        Hold("5 % of the frames lost, 1 s", 0.94 * alone.Good, 4, [.. twentieth]);
        Hold("30 % of the frames lost, 5 s", 0.6 * 12, 60, [.. third]);
    }

    private static void Hold(string size, double least, double longestGap, params Line[] lines)
    {
        FaultFigures.AtLeast("Modbus line, made-up time", size, "good readings in 60 s, mean", lines.Average(line => line.Good), least);
        FaultFigures.AtMost("Modbus line, made-up time", size, "longest gap", lines.Max(line => line.LongestGap.TotalSeconds), longestGap, "s");
    }

    private static async Task LetRunAsync()
    {
        for (var calm = 0; calm < 3; calm = ThreadPool.PendingWorkItemCount == 0 ? calm + 1 : 0)
        {
            await Task.Yield();
        }

        await Task.Delay(1, Cancel);
    }

    /// <summary>One line with the healthy device 17, and dead ones from 18.</summary>
    private sealed class Line(FakeTimeProvider time, double lost, int dead, TimeSpan every, int seed)
    {
        private long _last = time.GetTimestamp();

        public LossyLine Port { get; } = new(time, lost, seed);

        public int Good { get; private set; }

        public int Wrong { get; private set; }

        public TimeSpan LongestGap { get; private set; }

        public List<Task> Start(CancellationToken cancel)
        {
            var bus = new SerialBus(new BusId("line"), new SerialSettings { Port = "/dev/null", ReopenAfterSilence = TimeSpan.FromHours(1) }, time, _ => Port);
            bus.OpenAsync(cancel).AsTask().Wait(cancel);
            return Enumerable.Range(17, dead + 1).Select(address => Task.Run(() => ReadAsync(bus, (byte)address, cancel), Cancel)).ToList();
        }

        private async Task ReadAsync(SerialBus bus, byte address, CancellationToken cancel)
        {
            var definition = new ProbeDefinition(
                new ProbeId("any"), new VatId("madder-lane"), Quantity.Temperature, bus.Id, "modbus-rtu", every, SampleUnit.Canonical(Quantity.Temperature));
            var probe = new ModbusProbe(new ModbusSerialLine(bus), definition, new ModbusSettings(address, 3, 7, RegisterFormat.UInt16, 1));
            var start = time.GetTimestamp();
            while (true)
            {
                await Task.Delay(TimeSpan.FromMilliseconds(50), time, cancel);
                Note(address, (await probe.TakeSampleAsync(cancel)).Value);

                // Beats that have passed meanwhile are left out.
                var since = time.GetElapsedTime(start);
                await Task.Delay(every - TimeSpan.FromTicks(since.Ticks % every.Ticks), time, cancel);
            }
        }

        private void Note(byte address, double? value)
        {
            if (value is null)
            {
                return;
            }

            (Good, Wrong) = address == 17 && value == 7 ? (Good + 1, Wrong) : (Good, Wrong + 1);
            var gap = time.GetElapsedTime(_last);
            (_last, LongestGap) = (time.GetTimestamp(), gap > LongestGap ? gap : LongestGap);
        }
    }
}
