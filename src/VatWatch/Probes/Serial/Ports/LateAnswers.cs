namespace VatWatch.Probes.Serial.Ports;

/// <summary>Keeps account of answers that may still come after their question was given up. Not thread safe.</summary>
/// <remarks>
/// An answer on a wire does not say which question it belongs to, but answers come in the order of the questions. So the answers that are
/// owed are those to the questions put last: (1) after a question without an answer another one waits up to one reply timeout for it; (2) a
/// question is put until as many answers have come as may belong to other questions, and one more, which is its own; (3) order is trusted
/// again only when all of these said the same and another question's answer had said something else: one question alone was asked and
/// answered, and nothing came from before; (4) while more than three are owed, questions are put only now and then, so that not more pile up than are counted.
/// Time alone makes none of them forgotten: an instrument that answers twelve reply timeouts late does answer.
/// </remarks>
/// <param name="replyTimeout">How long an answer is waited for, and another question for a late one.</param>
/// <param name="wall">The clock of waits for the device.</param>
internal sealed class LateAnswers(TimeSpan replyTimeout, TimeProvider wall)
{
    /// <summary>With more than this, questions are put only now and then.</summary>
    private const int Few = 3;

    /// <summary>Answers that are counted. At one question in <see cref="QuietTimeouts"/> more, it takes 40 reply timeouts until one is left out of account.</summary>
    private const int MostOwed = 8;

    /// <summary>Reply timeouts between questions while many other answers are owed.</summary>
    private const int QuietTimeouts = 8;

    /// <summary>The same for the question whose own answers they are.</summary>
    private const int OwnQuietTimeouts = 2;

    /// <summary>Questions whose last answers are kept; a port has fewer.</summary>
    private const int MostKept = 64;

    private readonly Dictionary<object, byte[]> _said = [];
    private object? _begun;
    private object? _lastAsked;
    private object? _askedBefore;
    private int _asked;
    private long _changed;
    private long _settlesAt;

    /// <summary>Answers that may still come.</summary>
    public int Owed { get; private set; }

    /// <summary>How many of them may belong to other questions than the one begun.</summary>
    public int Foreign => Math.Max(0, Owed - (Equals(_begun, _lastAsked) ? _asked : 0));

    /// <summary>Whether so much is owed that the question begun may not be put.</summary>
    public bool IsHeld => Owed > Few && (Foreign > 0 || _askedBefore is not null)
        && wall.GetElapsedTime(_changed) < (Foreign > Few ? Quiet : OwnQuietTimeouts * replyTimeout);

    /// <summary>How long the line must be quiet before a held question is put again.</summary>
    public TimeSpan Quiet => QuietTimeouts * replyTimeout;

    /// <summary>How long the question begun must wait yet; zero or less when it need not, as when only its own answers are owed.</summary>
    public TimeSpan Rest => Foreign > 0 ? wall.GetElapsedTime(wall.GetTimestamp(), _settlesAt) : TimeSpan.Zero;

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

    /// <summary>An answer came that may belong to another question. As many are owed as before.</summary>
    public void NotePassedOver() => Change(Owed);

    /// <summary>The question begun is answered: these came one after the other, the last of them is its own.</summary>
    public void NoteTaken(IReadOnlyList<byte[]> answers)
    {
        var own = answers[^1];
        if (answers.Count > 1 && answers.All(answer => answer.AsSpan().SequenceEqual(own)) && IsUnlikeTheOneBefore(own))
        {
            Change(Math.Min(Owed, Math.Max(0, _asked - answers.Count)));
        }

        if (_said.Count < MostKept || _said.ContainsKey(_begun!))
        {
            _said[_begun!] = own;
        }
    }

    private void Change(int owed) => (Owed, _changed) = (Math.Clamp(owed, 0, MostOwed), wall.GetTimestamp());

    private bool IsUnlikeTheOneBefore(byte[] own) =>
        _askedBefore is not null && (!_said.TryGetValue(_askedBefore, out var other) || !other.AsSpan().SequenceEqual(own));
}
