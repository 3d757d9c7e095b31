namespace VatWatch.Probes.Serial;

/// <summary>Keeps account of answers that may still come after their question was given up. Not thread safe.</summary>
/// <remarks>
/// An answer on a wire does not say which question it belongs to, so after a question without an answer: (1) the next question waits up to
/// one reply timeout for the late answer, which is dropped; (2) if none came, the next question is put once more than answers are owed and
/// only the last answer is taken, so that an instrument which answers in order, however late, answers that very question; (3) the question
/// after that waits for what may still trail, and if less did than could, is put more than once as well, because the instrument may be
/// stuck again; (4) when four answers are owed nothing is asked until the line has been quiet for eight reply timeouts.
/// </remarks>
/// <param name="replyTimeout">How long an answer is waited for.</param>
/// <param name="wall">The clock of waits for the device.</param>
internal sealed class LateAnswers(TimeSpan replyTimeout, TimeProvider wall)
{
    /// <summary>More than this are not kept apart.</summary>
    private const int MostOwed = 4;

    /// <summary>Quiet reply timeouts after which a backlog counts as forgotten.</summary>
    private const int QuietTimeouts = 8;

    private long _settledAt;
    private int _perhapsOwed;
    private int _trailed;
    private bool _trailing;
    private bool _doubted;

    /// <summary>Answers that are owed, 0 to 4: the next question is to be put once more than that.</summary>
    public int Owed { get; private set; }

    /// <summary>Whether so much is owed that nothing may be asked until <see cref="Rest"/> is over.</summary>
    public bool IsHeld => Owed == MostOwed && Rest > TimeSpan.Zero;

    /// <summary>How long the line must be quiet before a held bus is asked again.</summary>
    public TimeSpan Quiet => QuietTimeouts * replyTimeout;

    /// <summary>How long the next question must wait yet; zero or less when it need not.</summary>
    public TimeSpan Rest => Owed > 0 || _trailing ? wall.GetElapsedTime(wall.GetTimestamp(), _settledAt) : TimeSpan.Zero;

    /// <summary>A question was given up.</summary>
    public void NoteMissed()
    {
        Owed = Math.Min(Owed + 1, MostOwed);
        _settledAt = After(Owed == MostOwed ? Quiet : replyTimeout);
    }

    /// <summary>A whole answer came while none was waited for.</summary>
    public void NoteLate()
    {
        if (_trailing)
        {
            _trailed++;
        }
        else if (Owed < MostOwed)
        {
            Owed = Math.Max(0, Owed - 1);
        }
    }

    /// <summary>Bytes came.</summary>
    public void NoteHeard()
    {
        if (_trailing || Owed == MostOwed)
        {
            _settledAt = After(_trailing ? replyTimeout : Quiet);
        }
    }

    /// <summary>An answer was taken after its question had been put <paramref name="asked"/> times, last at <paramref name="lastAsked"/>.</summary>
    public void NoteTaken(int asked, long lastAsked)
    {
        Owed = 0;
        _perhapsOwed = asked - 1;
        _trailed = 0;
        _trailing = asked > 1;
        _settledAt = After(2 * replyTimeout, lastAsked);
    }

    /// <summary>The wait for late answers is over.</summary>
    public void EndWait()
    {
        if (_trailing)
        {
            // Nothing trailed: either the first question was lost, or the instrument is stuck. Seen twice it was the former.
            var missing = Math.Max(0, _perhapsOwed - _trailed);
            _doubted = missing > 0 && (_trailed > 0 || !_doubted);
            Owed = _doubted ? missing : 0;
            _trailing = false;
        }
        else if (Owed == MostOwed)
        {
            // Quiet for so long: nothing more will come. One is kept, for the case that it will.
            Owed = 1;
        }
    }

    private long After(TimeSpan time) => After(time, wall.GetTimestamp());

    private long After(TimeSpan time, long start) => start + (long)(time.TotalSeconds * wall.TimestampFrequency);
}
