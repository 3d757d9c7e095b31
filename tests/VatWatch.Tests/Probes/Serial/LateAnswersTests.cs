using Microsoft.Extensions.Time.Testing;
using VatWatch.Probes.Serial;

namespace VatWatch.Tests.Probes.Serial;

public sealed class LateAnswersTests
{
    private static readonly TimeSpan Timeout = TimeSpan.FromMilliseconds(100);

    private readonly FakeTimeProvider _time = new();
    private readonly LateAnswers _late;

    public LateAnswersTests() => _late = new LateAnswers(Timeout, _time);

    [Fact]
    public void A_clean_line_waits_for_nothing_and_asks_once()
    {
        _late.EndWait();
        _late.NoteTaken(1, _time.GetTimestamp());
        Assert.Equal((TimeSpan.Zero, 0), (_late.Rest, _late.Owed));
    }

    [Fact]
    public void A_late_answer_that_comes_clears_the_account()
    {
        _late.NoteMissed();
        Assert.Equal(Timeout, _late.Rest);
        _late.NoteLate();
        Assert.Equal((TimeSpan.Zero, 0), (_late.Rest, _late.Owed));
    }

    [Fact]
    public void A_late_answer_that_does_not_come_is_asked_past_and_doubted_once()
    {
        _late.NoteMissed();
        _time.Advance(Timeout);
        _late.EndWait();
        Assert.Equal(1, _late.Owed);

        _late.NoteTaken(2, _time.GetTimestamp());
        Assert.Equal(2 * Timeout, _late.Rest);
        _time.Advance(2 * Timeout);
        _late.EndWait();
        Assert.Equal(1, _late.Owed);

        _late.NoteTaken(2, _time.GetTimestamp());
        _time.Advance(2 * Timeout);
        _late.EndWait();
        Assert.Equal(0, _late.Owed);
    }

    [Fact]
    public void What_trails_settles_the_doubt()
    {
        _late.NoteMissed();
        _late.NoteTaken(2, _time.GetTimestamp());
        _time.Advance(Timeout * 1.5);
        _late.NoteHeard();
        _late.NoteLate();
        Assert.Equal(Timeout, _late.Rest);
        _time.Advance(Timeout);
        _late.EndWait();
        Assert.Equal((TimeSpan.Zero, 0), (_late.Rest, _late.Owed));
    }

    [Fact]
    public void What_trails_in_part_leaves_the_rest_owed_for_as_long_as_it_goes_on()
    {
        for (var round = 0; round < 5; round++)
        {
            _late.NoteTaken(3, _time.GetTimestamp());
            _late.NoteLate();
            _time.Advance(2 * Timeout);
            _late.EndWait();
            Assert.Equal(1, _late.Owed);
        }
    }

    [Fact]
    public void A_backlog_is_waited_out_in_quiet()
    {
        for (var question = 0; question < 100; question++)
        {
            _late.NoteMissed();
        }

        Assert.Equal(4, _late.Owed);
        Assert.True(_late.IsHeld);
        _time.Advance(7 * Timeout);
        _late.NoteHeard();
        _late.NoteLate();
        _time.Advance(7 * Timeout);
        Assert.True(_late.IsHeld);
        _time.Advance(Timeout);
        Assert.False(_late.IsHeld);
        _late.EndWait();
        Assert.Equal(1, _late.Owed);
    }
}
