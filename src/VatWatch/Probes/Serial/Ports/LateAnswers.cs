namespace VatWatch.Probes.Serial.Ports;

/// <summary>Keeps account of answers that may still come after their question was given up. Not thread safe.</summary>
/// <remarks>
/// An answer on a wire does not say which question it belongs to, but answers come in the order of the questions. So the answers that are
/// owed are those to the questions put last: (1) after a question without an answer another one waits up to one reply timeout for it; (2) a
/// question is put until as many answers have come as may belong to other questions, and one more, which is its own; (3) order is trusted
/// again only when all of these said the same and the question before had been told something else: one question alone was asked and
/// answered, and nothing came from before; (4) while more than three are owed, questions are put only now and then, so that not more pile up than are counted.
/// Time alone makes none of them forgotten: an instrument that answers twelve reply timeouts late does answer. (5) An instrument may also fall an answer behind
/// though none was missed, as by a line that nobody asked for. Where nothing but its number tells an answer, one that is more like what another question was told is
/// taken for that one's, and the question put once more. A device that sends frames with a checksum cannot fall behind so, but a converter before it may let a late
/// answer be overtaken: there it is done for a while after a question that was given up.
/// </remarks>
/// <param name="replyTimeout">How long an answer is waited for, and another question for a late one.</param>
/// <param name="wall">The clock of waits for the device.</param>
/// <param name="areDistinct">Whether every answer shows which question it belongs to: then none need be passed over, and nobody waits for another's.</param>
internal sealed class LateAnswers(TimeSpan replyTimeout, TimeProvider wall, bool areDistinct = false)
{
    /// <summary>With more than this, questions are put only now and then.</summary>
    private const int Few = 3;

    /// <summary>Reply timeouts after a question was given up in which an answer may still be overtaken.</summary>
    private const int UnsettledTimeouts = 24;

    /// <summary>With as many, the question whose own answers they are is put no more often than another.</summary>
    private const int Many = 6;

    /// <summary>Answers that are counted. As seldom as questions are put when many are owed, one is left out of account only when it comes 24 reply timeouts late.</summary>
    private const int MostOwed = 8;

    /// <summary>Reply timeouts between questions while many other answers are owed.</summary>
    private const int QuietTimeouts = 8;

    /// <summary>The same for the question whose own answers they are, while it is fewer than <see cref="Many"/>.</summary>
    private const int OwnQuietTimeouts = 4;

    /// <summary>Questions whose last answers are kept; a port has fewer.</summary>
    private const int MostKept = 64;

    /// <summary>What two questions are told must differ by so much to tell them apart; in whatever unit, less does no harm where one is taken for the other.</summary>
    private const double LeastApart = 0.5;

    /// <summary>How many times the differences among answers to one question it must be away from another's.</summary>
    private const double Apart = 4;

    private readonly Dictionary<object, (Answer Last, Answer? Before)> _said = [];
    private object? _begun;
    private object? _lastAsked;
    private object? _askedBefore;
    private int _asked;
    private long _changed;
    private long? _settlesAt;

    /// <summary>Answers that may still come.</summary>
    public int Owed { get; private set; }

    /// <summary>How many of them may belong to other questions than the one begun.</summary>
    public int Foreign => areDistinct ? 0 : Math.Max(0, Owed - (Equals(_begun, _lastAsked) ? _asked : 0));

    /// <summary>Whether so much is owed that the question begun may not be put.</summary>
    public bool IsHeld => !areDistinct && Owed > Few && (Foreign > 0 || _askedBefore is not null)
        && wall.GetElapsedTime(_changed) < (Foreign > Few || Owed >= Many ? Quiet : OwnQuietTimeouts * replyTimeout);

    /// <summary>How long the line must be quiet before a held question is put again.</summary>
    public TimeSpan Quiet => QuietTimeouts * replyTimeout;

    /// <summary>How long the question begun must wait yet; zero or less when it need not, as when only its own answers are owed.</summary>
    public TimeSpan Rest => Foreign > 0 && _settlesAt is { } at ? wall.GetElapsedTime(wall.GetTimestamp(), at) : TimeSpan.Zero;

    /// <summary>Whether a question was given up lately.</summary>
    public bool IsUnsettled => _settlesAt is { } at && wall.GetElapsedTime(at) < UnsettledTimeouts * replyTimeout;

    /// <summary>One answer may be held back from before the port was opened.</summary>
    public void NoteUnknownPast() => Change(Owed + 1);

    /// <summary>This question is the next to be put.</summary>
    public void Begin(object question) => _begun = question;

    /// <summary>The question begun was put.</summary>
    public void NoteAsked()
    {
        if (!Equals(_begun, _lastAsked))
        {
            (_askedBefore, _lastAsked, _asked) = (_lastAsked, _begun, 0);
        }

        _asked++;
    }

    /// <summary>It was given up.</summary>
    public void NoteMissed()
    {
        Change(Owed + 1);
        _settlesAt = wall.GetTimestamp() + (long)(replyTimeout.TotalSeconds * wall.TimestampFrequency);
    }

    /// <summary>A whole answer came while none was waited for.</summary>
    public void NoteLate() => Change(Owed - 1);

    /// <summary>An answer came that may belong to another question. As many are owed as before, and one more where that was not reckoned with.</summary>
    public void NotePassedOver(bool isUnexpected = false) => Change(isUnexpected ? Owed + 1 : Owed);

    /// <summary>Whether this answer to the question begun is more like what another question was told last or before than what this one was.</summary>
    public bool IsMoreLikeAnothers(Answer answer) =>
        answer.Number is { } number && _said.TryGetValue(_begun!, out var own) && own.Last.Number is { } usual
        && _said.Where(each => !each.Key.Equals(_begun)).SelectMany(each => new[] { each.Value.Last.Number, each.Value.Before?.Number })
            .Any(other => Math.Abs(other - usual ?? 0) >= LeastApart && Math.Abs(number - other ?? 0) < Math.Abs(number - usual));

    /// <summary>The question begun is answered: these came one after the other, the last of them is its own.</summary>
    public void NoteTaken(IReadOnlyList<Answer> answers)
    {
        var own = answers[^1];
        if (answers.Count > 1 && _askedBefore is not null && AreUnlike(answers, _said.TryGetValue(_askedBefore, out var before) ? [before.Last, before.Before] : []))
        {
            Change(Math.Min(Owed, Math.Max(0, _asked - answers.Count)));
        }

        if (_said.TryGetValue(_begun!, out var said))
        {
            _said[_begun!] = (own, said.Last);
        }
        else if (_said.Count < MostKept)
        {
            _said[_begun!] = (own, null);
        }
    }

    private void Change(int owed) => (Owed, _changed) = (Math.Clamp(owed, 0, MostOwed), wall.GetTimestamp());

    /// <summary>Whether these are all of one question and none of the other that was told this.</summary>
    private static bool AreUnlike(IReadOnlyList<Answer> answers, IReadOnlyList<Answer?> others)
    {
        if (others.Count > 0 && answers.All(answer => answer.Number is not null))
        {
            var (least, most) = (answers.Min(answer => answer.Number!.Value), answers.Max(answer => answer.Number!.Value));
            var away = Math.Max(LeastApart, Apart * (most - least));
            return most - least < LeastApart && others.All(other => !(other?.Number >= least - away && other.Number <= most + away));
        }

        var own = answers[^1].Said;
        return answers.All(answer => answer.Said.AsSpan().SequenceEqual(own)) && (others.Count == 0 || !others[0]!.Said.AsSpan().SequenceEqual(own));
    }
}

/// <summary>One answer.</summary>
/// <param name="Said">As it came.</param>
/// <param name="Number">The number in it, where nothing else tells it from those to other questions.</param>
internal sealed record Answer(byte[] Said, double? Number);
