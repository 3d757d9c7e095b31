using System.Collections.Concurrent;
using Microsoft.Extensions.Logging.Abstractions;
using VatWatch.Alarms;
using VatWatch.Notifications;
using VatWatch.Testing;

namespace VatWatch.Tests.Notifications;

/// <summary>The loop that brings an outbox to a far side that takes, is busy, refuses or hangs.</summary>
public sealed class ContactSenderTests : IAsyncDisposable
{
    private static readonly DeliveryTimings Short = new()
    {
        Try = TimeSpan.FromSeconds(1),
        FirstRetry = TimeSpan.FromMilliseconds(30),
        MostRetry = TimeSpan.FromMilliseconds(100),
        FirstRefusedRetry = TimeSpan.FromMilliseconds(30),
        MostRefusedRetry = TimeSpan.FromMilliseconds(100),
        OutboxRetry = TimeSpan.FromMilliseconds(50),
        Patience = TimeSpan.FromMilliseconds(300),
    };

    private readonly MemoryOutbox _outbox = new();
    private readonly ScriptedDelivery _delivery = new();
    private readonly CancellationTokenSource _stop = new();
    private ContactSender? _sender;
    private Task _run = Task.CompletedTask;

    [Fact]
    public async Task Sentences_go_out_in_order_and_are_marked_when_taken()
    {
        Start();
        Tell(1, 2, 3);
        await Eventually.TrueAsync(() => _outbox.Delivered.SequenceEqual([1L, 2, 3]), "all are marked");
        Assert.Equal([1L, 2, 3], _delivery.Sent.Select(one => one.Id));
        Assert.Equal(new ContactHealth(3, 0, 0, null), _sender!.Health);
    }

    [Fact]
    public async Task What_fails_is_tried_again_under_the_same_key_and_nothing_overtakes_it()
    {
        _delivery.Answers.Enqueue(DeliveryOutcome.Later("it is busy"));
        _delivery.Answers.Enqueue(DeliveryOutcome.Later("it is busy"));
        Start();
        Tell(1, 2);
        await Eventually.TrueAsync(() => _outbox.Delivered.SequenceEqual([1L, 2]), "both are marked");
        Assert.Equal([1L, 1, 1, 2], _delivery.Sent.Select(one => one.Id));
        Assert.Single(_delivery.Sent.Where(one => one.Id == 1).Select(one => one.Key).Distinct());
        Assert.Equal(2, _outbox.Failed.Count);
    }

    [Fact]
    public async Task What_is_refused_for_good_is_set_aside_with_its_reason_and_told_as_trouble_until_something_is_taken()
    {
        _delivery.Answers.Enqueue(DeliveryOutcome.Never("no such mailbox"));
        Start();
        Tell(1);
        await Eventually.TrueAsync(() => _outbox.SetAside.SequenceEqual([(1L, "no such mailbox")]), "it is set aside");
        Assert.Equal(new ContactHealth(0, 0, 1, "no such mailbox"), _sender!.Health);
        Tell(2);
        await Eventually.TrueAsync(() => _outbox.Delivered.SequenceEqual([2L]), "the next one goes out");
        Assert.Null(_sender.Health.Trouble);
    }

    [Fact]
    public async Task A_dead_far_side_is_trouble_after_a_while_and_what_only_a_person_can_mend_at_once()
    {
        _delivery.Usual = DeliveryOutcome.Later("nothing listens there");
        Start();
        Tell(1);
        await Eventually.TrueAsync(() => _sender!.Health.Failed >= 1, "a try fails");
        Assert.Null(_sender!.Health.Trouble);
        await Eventually.TrueAsync(() => _sender.Health.Trouble == "nothing listens there", "it is trouble");
        _delivery.Usual = DeliveryOutcome.Taken("OK");
        await Eventually.TrueAsync(() => _sender.Health.Trouble is null, "it is over");
        _delivery.Usual = DeliveryOutcome.Later("wrong password") with { NeedsPerson = true };
        Tell(2);
        await Eventually.TrueAsync(() => _sender.Health.Trouble == "wrong password", "it is trouble");
    }

    [Fact]
    public async Task A_far_side_that_hangs_is_given_up_and_tried_again()
    {
        _delivery.Hangs = true;
        Start();
        Tell(1);
        await Eventually.TrueAsync(() => _outbox.Failed.Count > 0, "the try is given up");
        Assert.Equal("no answer within 1 s", _outbox.Failed[0].Reason);
        _delivery.Hangs = false;
        await Eventually.TrueAsync(() => _outbox.Delivered.SequenceEqual([1L]), "the next try gets through");
    }

    [Fact]
    public async Task The_wait_that_the_far_side_asks_for_is_kept()
    {
        _delivery.Answers.Enqueue(DeliveryOutcome.Later("busy") with { Wait = TimeSpan.FromMinutes(30) });
        Start();
        Tell(1);
        await Eventually.TrueAsync(() => _outbox.Failed.Count == 1, "the try failed");
        _sender!.Wake();
        await Task.Delay(300, TestContext.Current.CancellationToken);
        Assert.Single(_delivery.Sent);
    }

    [Fact]
    public async Task A_far_side_that_asks_for_long_patience_or_keeps_a_try_hanging_is_trouble_in_the_meantime()
    {
        _delivery.Answers.Enqueue(DeliveryOutcome.Later("busy") with { Wait = TimeSpan.FromMinutes(30) });
        Start();
        Tell(1);
        await Eventually.TrueAsync(() => _sender!.Health.Trouble == "busy", "the wait is trouble");
        Assert.Single(_delivery.Sent);
    }

    [Fact]
    public async Task A_try_that_hangs_is_trouble_before_it_is_given_up_and_none_once_it_is_taken()
    {
        _delivery.Hangs = true;
        Start(Short with { Try = TimeSpan.FromMinutes(2) });
        Tell(1);
        await Eventually.TrueAsync(() => _sender!.Health.Trouble == "no answer yet", "hanging is trouble");
        Assert.Empty(_outbox.Failed);
    }

    [Fact]
    public async Task While_the_connection_is_away_after_a_cut_there_is_no_trouble_of_the_contacts_own()
    {
        _delivery.Refusal = _ =>
        {
            _delivery.Ready = new TaskCompletionSource();
            return DeliveryOutcome.CutOff("gone");
        };
        Start();
        Tell(1);
        await Eventually.TrueAsync(() => _delivery.Sent.Count == 1, "a try is cut off");
        await Task.Delay(2 * Short.Patience, TestContext.Current.CancellationToken);
        Assert.Null(_sender!.Health.Trouble);
    }

    [Fact]
    public async Task A_disk_that_does_not_take_the_mark_makes_no_repeat_and_stops_nothing_told_from_memory()
    {
        _outbox.FailMarks = 4;
        Start();
        Tell(1, 2);
        await Eventually.TrueAsync(() => _delivery.Sent.Any(one => one.Id == 1), "the first is sent");
        Tell(-1);
        await Eventually.TrueAsync(() => _outbox.Delivered.SequenceEqual([1L, -1, 2]) || _outbox.Delivered.SequenceEqual([-1L, 1, 2]), "all are marked in the end");
        Assert.Equal(3, _delivery.Sent.Select(one => one.Id).Distinct().Count());
        Assert.Single(_delivery.Sent, one => one.Id == 1);
        Assert.Single(_delivery.Sent, one => one.Id == 2);
    }

    [Fact]
    public async Task A_vat_that_is_refused_waits_by_itself_and_is_trouble_until_it_is_taken()
    {
        var refused = DeliveryOutcome.Later("topic refused") with { NeedsPerson = true, IsOfVatAlone = true };
        _delivery.Refusal = notification => notification.Vat.Value == "madder-lane" ? refused : null;
        Start(Short with { FirstRefusedRetry = TimeSpan.FromSeconds(1), MostRefusedRetry = TimeSpan.FromSeconds(1) });
        Tell(1, 2);
        await Eventually.TrueAsync(() => _sender!.Health.Trouble == "topic refused", "it is trouble at once");
        _outbox.Add(new(3, new("weld-yard"), new("overheat"), AlarmPriority.Critical, DateTimeOffset.UnixEpoch, "3"));
        _sender!.Wake();
        await Eventually.TrueAsync(() => _outbox.Delivered.SequenceEqual([3L]), "the other vat is served");
        Assert.Equal("topic refused", _sender.Health.Trouble);
        Assert.DoesNotContain(_delivery.Sent, one => one.Id == 2);
        _delivery.Refusal = _ => null;
        await Eventually.TrueAsync(() => _outbox.Delivered.SequenceEqual([3L, 1, 2]), "the refused one goes on in order");
        Assert.Null(_sender.Health.Trouble);
    }

    [Fact]
    public async Task A_connection_that_goes_away_is_neither_a_failure_nor_trouble_and_the_next_try_waits_for_another()
    {
        _delivery.Answers.Enqueue(DeliveryOutcome.CutOff("gone"));
        _delivery.Ready = new TaskCompletionSource();
        Start();
        Tell(1);
        await Task.Delay(100, TestContext.Current.CancellationToken);
        Assert.Empty(_delivery.Sent);
        _delivery.Ready.SetResult();
        await Eventually.TrueAsync(() => _outbox.Delivered.SequenceEqual([1L]), "it goes out");
        Assert.Equal(new ContactHealth(1, 0, 0, null), _sender!.Health);
        Assert.Equal(2, _delivery.Sent.Count);
    }

    [Fact]
    public async Task Connections_that_go_away_under_every_try_are_trouble()
    {
        _delivery.Usual = DeliveryOutcome.CutOff("it closed the connection");
        Start(Short with { CutOffPatience = TimeSpan.FromMilliseconds(200) });
        Tell(1);
        await Eventually.TrueAsync(() => _sender!.Health.Trouble == "it closed the connection", "it is trouble");
        Assert.True(_delivery.Sent.Count >= 3);
        _delivery.Usual = DeliveryOutcome.Taken("OK");
        await Eventually.TrueAsync(() => _sender!.Health.Trouble is null, "it is over");
    }

    [Fact]
    public async Task A_new_connection_lets_what_was_refused_be_tried_at_once()
    {
        _delivery.Refusal = _ => DeliveryOutcome.Later("topic refused") with { NeedsPerson = true, IsOfVatAlone = true };
        Start(Short with { FirstRefusedRetry = TimeSpan.FromHours(1) });
        Tell(1);
        await Eventually.TrueAsync(() => _outbox.Failed.Count == 1, "it is refused");
        _delivery.Refusal = _ => null;
        _delivery.Reconnect();
        await Eventually.TrueAsync(() => _outbox.Delivered.SequenceEqual([1L]), "it goes out");
    }

    [Fact]
    public async Task An_outbox_that_fails_is_looked_at_again()
    {
        _outbox.Broken = new IOException("disk is full");
        Start();
        await Task.Delay(100, TestContext.Current.CancellationToken);
        Assert.False(_run.IsCompleted);
        _outbox.Broken = null;
        Tell(1);
        await Eventually.TrueAsync(() => _outbox.Delivered.SequenceEqual([1L]), "it goes on");
    }

    public async ValueTask DisposeAsync()
    {
        await _stop.CancelAsync();
        await _run.WaitAsync(TimeSpan.FromSeconds(10)).ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
        Assert.True(_delivery.IsDisposed || _sender is null);
        _stop.Dispose();
    }

    private void Start(DeliveryTimings? timings = null)
    {
        _sender = new ContactSender("dyer", "mail", _delivery, _outbox, timings ?? Short, TimeProvider.System, NullLogger.Instance);
        _run = _sender.RunAsync(_stop.Token);
    }

    private void Tell(params long[] ids)
    {
        foreach (var id in ids)
        {
            _outbox.Add(new(id, new("madder-lane"), new("overheat"), AlarmPriority.Critical, DateTimeOffset.UnixEpoch.AddSeconds(id), $"{id}"));
        }

        _sender!.Wake();
    }

    private sealed class ScriptedDelivery : IDelivery
    {
        public ConcurrentQueue<DeliveryOutcome> Answers { get; } = new();

        public ConcurrentQueue<(long Id, string Key)> Sent { get; } = new();

        public DeliveryOutcome Usual { get; set; } = DeliveryOutcome.Taken("OK");

        public volatile bool Hangs;

        public Func<Notification, DeliveryOutcome?>? Refusal { get; set; }

        public TaskCompletionSource? Ready { get; set; }

        public bool IsDisposed { get; private set; }

        public event Action? Reconnected;

        public void Reconnect() => Reconnected?.Invoke();

        public Task ReadyAsync(CancellationToken cancel) => Ready?.Task.WaitAsync(cancel) ?? Task.CompletedTask;

        public async Task<DeliveryOutcome> SendAsync(Notification notification, string key, CancellationToken cancel)
        {
            Sent.Enqueue((notification.Id, key));
            if (Hangs)
            {
                await Task.Delay(Timeout.Infinite, CancellationToken.None);
            }

            return Refusal?.Invoke(notification) ?? (Answers.TryDequeue(out var answer) ? answer : Usual);
        }

        public Task RestAsync() => Task.CompletedTask;

        public ValueTask DisposeAsync()
        {
            IsDisposed = true;
            return ValueTask.CompletedTask;
        }
    }
}
