using Microsoft.Extensions.Time.Testing;
using VatWatch.Probes;
using VatWatch.Probes.Blocking;
using VatWatch.Testing;

namespace VatWatch.Tests.Probes.Blocking;

/// <summary>The owner of a device whose calls block: one call at a time, and a call that hangs costs one thread at most.</summary>
public sealed class BlockingBusTests
{
    private static readonly BlockingLimits Limits = new(TimeSpan.FromSeconds(2), TimeSpan.FromSeconds(6), TimeSpan.FromSeconds(2));

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Calls_run_one_at_a_time_on_the_devices_own_thread()
    {
        var device = new CountingDevice();
        await using var owner = new BlockingBus<CountingDevice>(new("shop"), "lathe", _ => device, Limits, new FakeTimeProvider());
        await owner.OpenAsync(Stop);

        var threads = await Task.WhenAll(Enumerable.Range(0, 200).Select(_ => Task.Run(() => owner.RunAsync(d => d.Use(), Stop))));

        Assert.Equal(1, device.MostAtOnce);
        var thread = Assert.Single(threads.Distinct());
        Assert.Equal("lathe", thread.Name);
        Assert.False(thread.IsThreadPoolThread);
        Assert.Equal(1, owner.Threads);
        await owner.CloseAsync();
        Assert.Equal((0, 1), (owner.Threads, device.Disposed));
    }

    [Fact]
    public async Task A_transfer_that_hangs_loses_the_bus_after_its_limit()
    {
        var clock = new FakeTimeProvider();
        using var hang = new ManualResetEventSlim();
        using var begun = new ManualResetEventSlim();
        TransferWatch? watch = null;
        var device = new CountingDevice();
        await using var owner = new BlockingBus<CountingDevice>(new("shop"), "lathe", w => Keep(device, watch = w), Limits, clock);
        await owner.OpenAsync(Stop);

        var running = owner.RunAsync(d => Hang(watch!, begun, hang), Stop);
        begun.Wait(Stop);
        clock.Advance(TimeSpan.FromSeconds(1.9));
        Assert.False(running.IsCompleted);
        await clock.PassUntilAsync(running);

        var lost = await Assert.ThrowsAsync<BusLostException>(() => running);
        Assert.Equal("a transfer on lathe hung for longer than 2 s", lost.Message);
        await Assert.ThrowsAsync<BusLostException>(() => owner.RunAsync(d => 0, Stop));
        Assert.Equal(0, device.Disposed);

        // Only its own thread may close the device, and does so when the call comes back.
        hang.Set();
        await Eventually.TrueAsync(() => owner.Threads == 0, "all threads end");
        Assert.Equal(1, device.Disposed);
    }

    [Fact]
    public async Task A_call_that_never_ends_loses_the_bus_even_when_its_transfers_are_quick()
    {
        var clock = new FakeTimeProvider();
        var stop = false;
        await using var owner = new BlockingBus<CountingDevice>(new("shop"), "lathe", w => Keep(new CountingDevice(), w), Limits, clock);
        await owner.OpenAsync(Stop);
        var running = owner.RunAsync(d => d.Spin(() => Volatile.Read(ref stop)), Stop);

        await clock.PassUntilAsync(running);

        Assert.Equal("a sample on lathe took longer than 6 s", (await Assert.ThrowsAsync<BusLostException>(() => running)).Message);

        // Its next transfer is refused, and that ends the call.
        await Eventually.TrueAsync(() => owner.Threads == 0, "all threads end");
        Volatile.Write(ref stop, true);
    }

    [Fact]
    public async Task While_one_call_hangs_one_more_thread_is_started_and_never_a_third()
    {
        using var hang = new ManualResetEventSlim();
        var clock = new FakeTimeProvider();
        TransferWatch? watch = null;
        var opened = 0;
        await using var owner = new BlockingBus<CountingDevice>(new("shop"),
            "lathe",
            w =>
            {
                Interlocked.Increment(ref opened);
                watch = w;
                return new CountingDevice();
            },
            Limits,
            clock);

        for (var cycle = 0; cycle < 20; cycle++)
        {
            try
            {
                await owner.OpenAsync(Stop);
                await Assert.ThrowsAsync<BusLostException>(() => clock.PassAsync(owner.RunAsync(d => Hang(watch!, null, hang), Stop)));
            }
            catch (BusLostException refused)
            {
                Assert.Equal("lathe: 2 earlier calls still hang in the kernel's driver; wanted one of them back before another try", refused.Message);
            }

            await owner.CloseAsync();
            Assert.InRange(owner.Threads, 1, 2);
        }

        Assert.Equal(2, opened);

        // When they come back everything does.
        hang.Set();
        await Eventually.TrueAsync(() => owner.Threads == 0, "all threads end");
        await owner.OpenAsync(Stop);
        Assert.Equal(7, await owner.RunAsync(_ => 7, Stop));
    }

    [Fact]
    public async Task A_caller_who_stops_waiting_does_not_let_the_next_one_in_early()
    {
        using var hang = new ManualResetEventSlim();
        using var begun = new ManualResetEventSlim();
        TransferWatch? watch = null;
        var device = new CountingDevice();
        await using var owner = new BlockingBus<CountingDevice>(new("shop"), "lathe", w => Keep(device, watch = w), Limits, new FakeTimeProvider());
        await owner.OpenAsync(Stop);
        using var impatient = new CancellationTokenSource();

        var first = owner.RunAsync(d => Hang(watch!, begun, hang), impatient.Token);
        begun.Wait(Stop);
        await impatient.CancelAsync();
        await Assert.ThrowsAnyAsync<OperationCanceledException>(() => first);
        var second = owner.RunAsync(_ => 7, Stop);
        Assert.False(second.IsCompleted);

        hang.Set();
        Assert.Equal(7, await second);
    }

    [Fact]
    public async Task A_device_that_does_not_open_is_a_lost_bus_and_leaves_no_thread()
    {
        await using var refused = new BlockingBus<CountingDevice>(new("shop"), "lathe", _ => throw new UnauthorizedAccessException("Access denied."), Limits, new FakeTimeProvider());
        Assert.Equal("lathe cannot be opened: Access denied", (await Assert.ThrowsAsync<BusLostException>(async () => await refused.OpenAsync(Stop))).Message);
        await Eventually.TrueAsync(() => refused.Threads == 0, "all threads end");

        using var hang = new ManualResetEventSlim();
        var clock = new FakeTimeProvider();
        var late = new CountingDevice();
        await using var slow = new BlockingBus<CountingDevice>(new("shop"), "press", _ => Await(hang, late), Limits, clock);
        var opening = slow.OpenAsync(Stop).AsTask();
        await clock.PassUntilAsync(opening);
        Assert.Equal("press did not open within 6 s", (await Assert.ThrowsAsync<BusLostException>(() => opening)).Message);
        hang.Set();
        await Eventually.TrueAsync(() => slow.Threads == 0, "all threads end");
        Assert.Equal(1, late.Disposed);
    }

    [Fact]
    public async Task Opening_and_closing_many_times_leaves_nothing()
    {
        var devices = new List<CountingDevice>();
        await using var owner = new BlockingBus<CountingDevice>(new("shop"), "lathe", _ => Add(devices), Limits, new FakeTimeProvider());
        for (var cycle = 0; cycle < 300; cycle++)
        {
            await owner.OpenAsync(Stop);
            await owner.RunAsync(d => d.Use(), Stop);
            await owner.CloseAsync();
            Assert.Equal(0, owner.Threads);
        }

        Assert.Equal(300, devices.Sum(device => device.Disposed));
    }

    private static CountingDevice Keep(CountingDevice device, TransferWatch watch)
    {
        device.Watch = watch;
        return device;
    }

    private static CountingDevice Add(List<CountingDevice> devices)
    {
        devices.Add(new CountingDevice());
        return devices[^1];
    }

    private static CountingDevice Await(ManualResetEventSlim hang, CountingDevice device)
    {
        hang.Wait();
        return device;
    }

    private static int Hang(TransferWatch watch, ManualResetEventSlim? begun, ManualResetEventSlim hang)
    {
        watch.Run(
            (_, _) =>
            {
                begun?.Set();
                hang.Wait();
            },
            [],
            []);
        return 0;
    }

    private sealed class CountingDevice : IDisposable
    {
        private int _users;
        private int _disposed;

        public TransferWatch? Watch { get; set; }

        public int MostAtOnce { get; private set; }

        public int Disposed => Volatile.Read(ref _disposed);

        public Thread Use()
        {
            var users = Interlocked.Increment(ref _users);
            MostAtOnce = Math.Max(MostAtOnce, users);
            Thread.Yield();
            Interlocked.Decrement(ref _users);
            return Thread.CurrentThread;
        }

        public int Spin(Func<bool> enough)
        {
            while (!enough())
            {
                Watch!.Run((_, _) => Thread.Yield(), [], []);
            }

            return 0;
        }

        public void Dispose() => Interlocked.Increment(ref _disposed);
    }
}
