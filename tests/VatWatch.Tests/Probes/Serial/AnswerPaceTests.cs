using VatWatch.Probes.Serial;

namespace VatWatch.Tests.Probes.Serial;

public sealed class AnswerPaceTests
{
    private static readonly TimeSpan Timeout = TimeSpan.FromSeconds(1);

    private readonly AnswerPace _pace = new(Timeout);

    [Fact]
    public void A_quick_device_is_asked_again_soon_and_an_unknown_or_a_slow_one_is_waited_for()
    {
        Assert.Equal([Timeout], _pace.Waits);
        _pace.NoteAnswer(TimeSpan.FromMilliseconds(30));
        Assert.Equal([TimeSpan.FromMilliseconds(180), TimeSpan.FromMilliseconds(360), Timeout], _pace.Waits);
        _pace.NoteAnswer(TimeSpan.FromMilliseconds(300));
        Assert.Equal([Timeout], _pace.Waits);
    }

    [Fact]
    public void One_slow_answer_is_forgotten_in_time()
    {
        _pace.NoteAnswer(TimeSpan.FromMilliseconds(300));
        for (var answer = 0; answer < 200; answer++)
        {
            _pace.NoteAnswer(TimeSpan.FromMilliseconds(30));
        }

        Assert.Equal(3, _pace.Waits.Length);
        _pace.Forget();
        Assert.Equal([Timeout], _pace.Waits);
    }
}
