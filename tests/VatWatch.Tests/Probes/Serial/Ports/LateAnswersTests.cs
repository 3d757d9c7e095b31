using System.Text;
using Microsoft.Extensions.Time.Testing;
using VatWatch.Probes.Serial.Ports;

namespace VatWatch.Tests.Probes.Serial.Ports;

public sealed class LateAnswersTests
{
    private static readonly TimeSpan Timeout = TimeSpan.FromMilliseconds(100);

    private readonly FakeTimeProvider _time = new();
    private readonly LateAnswers _late;

    public LateAnswersTests() => _late = new LateAnswers(Timeout, _time);

    [Fact]
    public void A_clean_line_waits_for_nothing_and_passes_nothing_over()
    {
        Ask("T", "44.0");
        Ask("PH", "10.0");
        Assert.Equal((TimeSpan.Zero, 0, 0), (_late.Rest, _late.Owed, _late.Foreign));
    }

    [Fact]
    public void A_late_answer_that_comes_clears_the_account()
    {
        Miss("T");
        Assert.Equal(TimeSpan.Zero, _late.Rest);
        _late.Begin("PH");
        Assert.Equal(Timeout, _late.Rest);
        _late.NoteLate();
        Assert.Equal((TimeSpan.Zero, 0), (_late.Rest, _late.Owed));
    }

    [Fact]
    public void What_may_belong_to_another_question_is_passed_over_and_what_belongs_to_this_one_is_not()
    {
        Miss("T");
        Miss("PH");
        _late.Begin("PH");
        Assert.Equal(1, _late.Foreign);
        _late.Begin("T");
        Assert.Equal(2, _late.Foreign);
    }

    [Fact]
    public void An_instrument_that_is_one_answer_behind_is_never_trusted()
    {
        Ask("PH", "10.0");
        Miss("T");
        for (var round = 0; round < 30; round++)
        {
            Ask("PH", "44.0", "10.0");
            Ask("T", "10.0", "44.0");
            _time.Advance(TimeSpan.FromSeconds(1));
        }

        Assert.Equal(1, _late.Owed);
    }

    [Fact]
    public void Order_is_trusted_again_when_one_question_alone_was_answered()
    {
        Ask("PH", "10.0");
        Miss("T");
        Ask("PH", "10.1", "10.0");
        Assert.Equal(1, _late.Owed);
        Ask("T", "44.0", "44.0");
        Assert.Equal(0, _late.Owed);
    }

    [Fact]
    public void A_question_that_was_not_put_proves_nothing()
    {
        Ask("PH", "10.0");
        Miss("T");
        Miss("T");
        _late.Begin("PH");
        Ask("T", "44.0");
        Assert.Equal(2, _late.Owed);
    }

    [Fact]
    public void Equal_answers_prove_nothing_when_the_other_question_had_the_same()
    {
        Ask("PH", "10.0");
        Miss("PH");
        Ask("T", "10.0", "10.0");
        Assert.Equal(1, _late.Owed);
    }

    [Fact]
    public void With_much_owed_questions_are_put_only_now_and_then_and_nothing_is_forgotten()
    {
        for (var question = 0; question < 4; question++)
        {
            Miss("PH");
            Miss("T");
        }

        _late.Begin("PH");
        Assert.True(_late.IsHeld);
        _time.Advance(8 * Timeout);
        Assert.False(_late.IsHeld);
        Assert.Equal((8, 8), (_late.Owed, _late.Foreign));
        _late.NoteLate();
        Assert.True(_late.IsHeld);
    }

    [Fact]
    public void The_question_whose_own_answers_are_owed_is_put_more_often()
    {
        Ask("PH", "10.0");
        for (var question = 0; question < 4; question++)
        {
            Miss("T");
        }

        _late.Begin("T");
        Assert.True(_late.IsHeld);
        _time.Advance(4 * Timeout);
        Assert.False(_late.IsHeld);
    }

    [Fact]
    public void A_question_that_is_alone_is_never_held()
    {
        for (var question = 0; question < 10; question++)
        {
            Miss("T");
            Assert.False(_late.IsHeld);
        }
    }

    [Fact]
    public void What_is_owed_anew_with_each_question_is_not_forgotten()
    {
        Miss("T");
        Miss("PH");
        for (var round = 0; round < 20; round++)
        {
            Ask(round % 2 == 0 ? "T" : "PH", "45.0", "44.0", "43.0");
            _time.Advance(2 * Timeout);
        }

        Assert.Equal(2, _late.Owed);
    }

    [Fact]
    public void What_was_held_back_before_the_port_was_opened_is_passed_over()
    {
        _late.NoteUnknownPast();
        _late.Begin("T");
        Assert.Equal(1, _late.Foreign);
    }

    [Fact]
    public void Answers_that_show_whose_they_are_hold_up_nobody()
    {
        var late = new LateAnswers(Timeout, _time, areDistinct: true);
        for (var question = 0; question < 5; question++)
        {
            late.Begin("T");
            late.NoteAsked();
            late.NoteMissed();
        }

        late.Begin("PH");
        Assert.Equal((5, 0, TimeSpan.Zero, false), (late.Owed, late.Foreign, late.Rest, late.IsHeld));
    }

    [Fact]
    public void An_answer_more_like_another_questions_is_not_its_own()
    {
        Ask("PH", "10.0");
        Ask("T", "44.0");
        _late.Begin("T");
        Assert.False(_late.IsMoreLikeAnothers(Bare("41.0")));
        Assert.True(_late.IsMoreLikeAnothers(Bare("25.0")));
        Assert.True(_late.IsMoreLikeAnothers(Bare("10.0")));
        Assert.False(_late.IsMoreLikeAnothers(new Answer("10.0"u8.ToArray(), null)));
        _late.NotePassedOver(isUnexpected: true);
        Assert.Equal(1, _late.Owed);
    }

    [Fact]
    public void What_is_hardly_apart_is_not_told_apart()
    {
        Ask("T1", "44.0");
        Ask("T2", "44.3");
        _late.Begin("T2");
        Assert.False(_late.IsMoreLikeAnothers(Bare("44.0")));
    }

    [Fact]
    public void Order_is_trusted_again_though_the_last_digit_moves()
    {
        Ask("PH", "10.0");
        Ask("T", "44.0");
        Miss("PH");
        Ask("T", "44.01", "44.00");
        Assert.Equal(0, _late.Owed);
        Miss("PH");
        Ask("T", "44.0", "41.0");
        Assert.Equal(1, _late.Owed);
    }

    private static Answer Bare(string text) => new(Encoding.ASCII.GetBytes(text), double.Parse(text, System.Globalization.CultureInfo.InvariantCulture));

    private void Ask(string question, params string[] answers)
    {
        _late.Begin(question);
        Assert.Equal(answers.Length - 1, _late.Foreign);
        for (var answer = 0; answer < answers.Length; answer++)
        {
            _late.NoteAsked();
            if (answer < answers.Length - 1)
            {
                _late.NotePassedOver();
            }
        }

        _late.NoteTaken([.. answers.Select(Bare)]);
    }

    private void Miss(string question)
    {
        _late.Begin(question);
        _late.NoteAsked();
        _late.NoteMissed();
    }
}
