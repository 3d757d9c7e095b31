namespace VatWatch.Probes.Serial.Ports;

/// <summary>Keeps account of answers that may still come after their question was given up. Not thread safe.</summary>
/// <remarks>
/// An answer on a wire does not say which question it belongs to, but answers come in the order of the questions. So the answers that are
/// owed are those to the questions put last: (1) after a question without an answer another one waits up to one reply timeout for it; (2) a
/// question is put until as many answers have come as may belong to other questions, and one more, which is its own; (3) order is trusted
/// again only when all of these said the same and another question's answer had said something else: one question alone was asked and
/// answered, and nothing came from before; (4) while more than three answers would have to be passed over, nothing is asked; an answer that
/// is owed for eight reply timeouts is not waited for any more, but for the last.
/// </remarks>
/// <param name="replyTimeout">How long an answer is waited for, and another question for a late one.</param>
/// <param name="wall">The clock of waits for the device.</param>
internal sealed class LateAnswers(TimeSpan replyTimeout, TimeProvider wall)
{
    /// <summary>More than this are not passed over.</summary>
    private const int MostPassedOver = 3;

    /// <summary>Reply timeouts after which an answer is not expected any more.</summary>
    private const int QuietTimeouts = 8;

    /// <summary>Questions whose last answers are kept; a port has fewer.</summary>
    private const int MostKept = 64;

    private readonly Queue<long> _owed = [];
    private readonly Dictionary<object, byte[]> _said = [];
    private object? _begun;
    private object? _lastAsked;
    private object? _askedBefore;
    private int _asked;
    private long _settlesAt;

    /// <summary>Answers that may still come.</summary>
    public int Owed => _owed.Count;

    /// <summary>How many of them may belong to other questions than the one begun.</summary>
    public int Foreign => Math.Max(0, _owed.Count - (Equals(_begun, _lastAsked) ? _asked : 0));

    /// <summary>Whether so much is owed that the question begun may not be put.</summary>
    public bool IsHeld => Foreign > MostPassedOver;

    /// <summary>How long the line must be quiet before a held question is put again.</summary>
    public TimeSpan Quiet => QuietTimeouts * replyTimeout;

    /// <summary>How long the question begun must wait yet; zero or less when it need not, as when only its own answers are owed.</summary>
    public TimeSpan Rest => Foreign > 0 ? wall.GetElapsedTime(wall.GetTimestamp(), _settlesAt) : TimeSpan.Zero;

    /// <summary>One answer may be held back from before the port was opened.</summary>
    public void NoteUnknownPast() => _owed.Enqueue(wall.GetTimestamp());

    /// <summary>This question is the next to be put.</summary>
    public void Begin(object question)
    {
        _begun = question;
        while (_owed.Count > 1 && wall.GetElapsedTime(_owed.Peek()) >= Quiet)
        {
            _owed.Dequeue();
        }
    }

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
        _owed.Enqueue(wall.GetTimestamp());
        _settlesAt = wall.GetTimestamp() + (long)(replyTimeout.TotalSeconds * wall.TimestampFrequency);
    }

    /// <summary>A whole answer came while none was waited for.</summary>
    public void NoteLate() => _owed.TryDequeue(out _);

    /// <summary>An answer came that may belong to another question. As many are owed as before, but the newest of them since now.</summary>
    public void NotePassedOver()
    {
        if (_owed.TryDequeue(out _))
        {
            _owed.Enqueue(wall.GetTimestamp());
        }
    }

    /// <summary>The question begun is answered: these came one after the other, the last of them is its own.</summary>
    public void NoteTaken(IReadOnlyList<byte[]> answers)
    {
        var own = answers[^1];
        if (answers.Count > 1 && answers.All(answer => answer.AsSpan().SequenceEqual(own)) && IsUnlikeTheOneBefore(own))
        {
            var unanswered = Math.Max(0, _asked - answers.Count);
            while (_owed.Count > unanswered)
            {
                _owed.Dequeue();
            }
        }

        if (_said.Count < MostKept || _said.ContainsKey(_begun!))
        {
            _said[_begun!] = own;
        }
    }

    /// <summary>
    /// Whether this answer is what the question before was told, and not what this one was told last: then an instrument may have fallen an answer
    /// behind, though perhaps no question was missed, and one at least is owed from here on.
    /// </summary>
    public bool HasSlipped(byte[] answer)
    {
        if (_askedBefore is null || !HasSaid(_askedBefore, answer) || !_said.ContainsKey(_begun!) || HasSaid(_begun!, answer))
        {
            return false;
        }

        if (_owed.Count == 0)
        {
            NoteUnknownPast();
        }

        return true;
    }

    private bool IsUnlikeTheOneBefore(byte[] own) => _askedBefore is not null && !HasSaid(_askedBefore, own);

    private bool HasSaid(object question, byte[] answer) => _said.TryGetValue(question, out var said) && said.AsSpan().SequenceEqual(answer);
}
