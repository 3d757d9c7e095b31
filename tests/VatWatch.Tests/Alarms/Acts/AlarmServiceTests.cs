using Microsoft.Extensions.Logging.Abstractions;
using Microsoft.Extensions.Time.Testing;
using VatWatch.Alarms.Acts;
using VatWatch.Store;
using VatWatch.Testing;

namespace VatWatch.Tests.Alarms.Acts;

public sealed class AlarmServiceTests
{
    private static readonly AlarmRequest Acknowledge = new(AlarmActKind.Acknowledge, "madder-lane", "overheat", " Ada\u0007 ", "page");

    private readonly FakeTimeProvider _time = new();
    private readonly RecordingDesk _desk = new();

    [Fact]
    public async Task What_is_on_disk_is_told_as_a_sentence()
    {
        var outcome = await CarryOutAsync(Acknowledge);
        Assert.Equal((AlarmOutcomeKind.OnDisk, "overheat of madder-lane is acknowledged by Ada."), (outcome.Kind, outcome.Sentence));
        Assert.Equal("Ada", Assert.Single(_desk.Taken).By);
    }

    [Fact]
    public async Task What_the_disk_does_not_take_is_told_to_be_held_in_memory()
    {
        _desk.HoldsInMemory = true;
        var outcome = await CarryOutAsync(Acknowledge);
        Assert.Equal(
            (AlarmOutcomeKind.InMemory, "overheat of madder-lane is acknowledged by Ada. The disk does not take it: it is held in memory until the disk does, and lost if VatWatch ends before."),
            (outcome.Kind, outcome.Sentence));
    }

    [Fact]
    public async Task A_request_that_is_not_whole_never_reaches_the_alarms()
    {
        var outcome = await CarryOutAsync(Acknowledge with { Kind = AlarmActKind.Shelve, Minutes = 0 });
        Assert.Equal((AlarmOutcomeKind.Refused, "The time on the shelf is 0; wanted 1 to 1440 minutes."), (outcome.Kind, outcome.Sentence));
        Assert.Empty(_desk.Taken);
    }

    [Fact]
    public async Task Nothing_to_do_is_told_with_the_reason()
    {
        _desk.Answer = _ => Task.FromResult(false);
        var outcome = await CarryOutAsync(Acknowledge);
        Assert.Equal(
            (AlarmOutcomeKind.NothingToDo, "Nothing was done: vat 'madder-lane' has no alarm 'overheat' that waits for an acknowledgement."), (outcome.Kind, outcome.Sentence));
    }

    [Fact]
    public async Task A_disk_that_refuses_or_says_nothing_for_ten_seconds_is_told_the_same_way()
    {
        const string Told = "The store did not confirm it within 10 s; look at the alarm and try again.";
        _desk.Answer = _ => throw new StoreUnavailableException("the disk is full");
        Assert.Equal((AlarmOutcomeKind.Unconfirmed, Told), await ToldAsync(CarryOutAsync(Acknowledge)));

        _desk.Answer = _ => new TaskCompletionSource<bool>().Task;
        var waiting = CarryOutAsync(Acknowledge);
        _time.Advance(TimeSpan.FromSeconds(9.9));
        Assert.False(waiting.IsCompleted);
        _time.Advance(TimeSpan.FromSeconds(0.1));
        Assert.Equal((AlarmOutcomeKind.Unconfirmed, Told), await ToldAsync(waiting));
    }

    private static async Task<(AlarmOutcomeKind, string)> ToldAsync(Task<AlarmOutcome> task) =>
        await task.WaitAsync(TimeSpan.FromSeconds(20), TestContext.Current.CancellationToken) is var outcome ? (outcome.Kind, outcome.Sentence) : default;

    private Task<AlarmOutcome> CarryOutAsync(AlarmRequest request) =>
        new AlarmService(_desk, _time, NullLogger<AlarmService>.Instance).CarryOutAsync(request, TestContext.Current.CancellationToken);
}
