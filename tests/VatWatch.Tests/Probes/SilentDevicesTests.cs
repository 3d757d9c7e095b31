using Microsoft.Extensions.Time.Testing;
using VatWatch.Probes;

namespace VatWatch.Tests.Probes;

public sealed class SilentDevicesTests
{
    private static readonly TimeSpan Timeout = TimeSpan.FromSeconds(1);

    private readonly FakeTimeProvider _time = new();
    private readonly SilentDevices _silent;

    public SilentDevicesTests() => _silent = new SilentDevices(_time);

    [Fact]
    public void One_that_has_answered_may_miss_twice()
    {
        _silent.NoteAnswered(17);
        _silent.NoteUnanswered(17, Timeout);
        _silent.NoteUnanswered(17, Timeout);
        Assert.Equal(TimeSpan.Zero, _silent.Rest(17));
        _silent.NoteUnanswered(17, Timeout);
        Assert.Equal(3 * Timeout, _silent.Rest(17));
        _silent.NoteAnswered(17);
        Assert.Equal(TimeSpan.Zero, _silent.Rest(17));
    }

    [Fact]
    public void A_question_rests_only_while_another_is_answered_and_all_are_asked_again_with_the_first_that_is()
    {
        Miss("T?");
        Miss("P?");
        Assert.Equal(TimeSpan.Zero, _silent.RestBesideOthers("T?"));

        _silent.NoteAnswered("N?");
        Assert.Equal(TimeSpan.Zero, _silent.RestBesideOthers("T?"));
        _silent.NoteUnanswered("T?", Timeout);
        Assert.Equal(7 * Timeout, _silent.RestBesideOthers("T?"));
        Assert.Equal(TimeSpan.Zero, _silent.RestBesideOthers("N?"));

        // A line that comes late may be the answer to any of them.
        _silent.NoteNamelessAnswered();
        Assert.Equal(TimeSpan.Zero, _silent.RestBesideOthers("T?"));

        void Miss(string question)
        {
            _silent.NoteUnanswered(question, Timeout);
            _silent.NoteUnanswered(question, Timeout);
        }
    }

    [Theory]
    [InlineData(1)]
    [InlineData(5)]
    public void Together_they_take_a_quarter_of_the_line_and_each_has_its_turn(int devices)
    {
        var taken = new int[devices];
        for (var second = 0; second < 1000; second++)
        {
            var asked = 0;
            for (; asked < devices && _silent.Rest(asked) > TimeSpan.Zero; asked++)
            {
            }

            _time.Advance(Timeout);
            if (asked < devices)
            {
                taken[asked]++;
                _silent.NoteUnanswered(asked, Timeout);
            }
        }

        Assert.InRange(taken.Sum(), 240, 265);
        Assert.All(taken, times => Assert.InRange(times, 230 / devices, 275 / devices));
        Assert.Equal(TimeSpan.Zero, _silent.Rest(99));
    }
}
