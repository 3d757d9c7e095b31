using VatWatch.Probes.Serial.Lines;
using VatWatch.Probes.Serial.Ports;

namespace VatWatch.Probes.Serial;

/// <summary>What a port knows of those whose answers could be taken for one another: one device with an address, or all that speak without. Not thread safe.</summary>
/// <param name="address">The device's address, or null.</param>
/// <param name="replyTimeout">How long an answer is waited for.</param>
/// <param name="wall">The clock of waits for the device.</param>
/// <param name="areDistinct">Whether every answer shows which question it belongs to.</param>
internal sealed class AnswerAccount(int? address, TimeSpan replyTimeout, TimeProvider wall, bool areDistinct = false)
{
    private readonly AnswerPace _pace = new(replyTimeout);
    private Reply? _trailing;

    /// <summary>Answers that are owed.</summary>
    public LateAnswers Late { get; } = new(replyTimeout, wall, areDistinct);

    /// <summary>The waits of one exchange, one for each time that the question is put.</summary>
    public TimeSpan[] Waits => address is null ? [replyTimeout] : _pace.Waits;

    /// <summary>A wait for this reply is over; what comes from now on is late.</summary>
    public void Trail(Reply? reply) => _trailing = reply;

    /// <summary>An answer came after this time.</summary>
    public void NoteAnswer(TimeSpan took) => _pace.NoteAnswer(took);

    /// <summary>An exchange ended without an answer.</summary>
    public void NoteSilence() => _pace.Forget();

    /// <summary>Bytes that nobody of this account waits for, of one line at most; true when they complete a late answer.</summary>
    public bool Hear(ReadOnlySpan<byte> bytes)
    {
        if (_trailing is null || !_trailing.Take(bytes))
        {
            return false;
        }

        var sound = _trailing.IsSound;
        _trailing.Reset();
        if (sound)
        {
            Late.NoteLate();
        }

        return sound;
    }
}

/// <summary>
/// How long a device is waited for that puts its address and a checksum into its answers: whatever comes late is known, so it may be asked
/// again soon, as long as it takes much less than the reply timeout. Not thread safe.
/// </summary>
/// <param name="replyTimeout">Longest wait, and the only one for a device of which nothing is known.</param>
internal sealed class AnswerPace(TimeSpan replyTimeout)
{
    /// <summary>How much slower than its slowest answer a device may be. With it a busy machine asks twice, which does no harm.</summary>
    private const int Allowance = 4;

    /// <summary>What the slowest answer loses with each quicker one, so that one slow answer is not remembered for ever.</summary>
    private const double Forgetting = 0.98;

    private static readonly TimeSpan Least = TimeSpan.FromMilliseconds(60);

    private TimeSpan? _slowest;

    /// <summary>The waits of one exchange, one for each time that the question is put.</summary>
    public TimeSpan[] Waits => _slowest is { } slowest && Least + Allowance * slowest is var first && 2 * first < replyTimeout
        ? [first, 2 * first, replyTimeout]
        : [replyTimeout];

    /// <summary>An answer came after this time.</summary>
    public void NoteAnswer(TimeSpan took) => _slowest = _slowest * Forgetting is { } slowest && slowest > took ? slowest : took;

    /// <summary>The device has not answered at all.</summary>
    public void Forget() => _slowest = null;
}
