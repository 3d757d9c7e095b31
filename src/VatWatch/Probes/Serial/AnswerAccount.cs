using VatWatch.Probes.Serial.Lines;
using VatWatch.Probes.Serial.Ports;

namespace VatWatch.Probes.Serial;

/// <summary>What a port knows of those whose answers could be taken for one another: one device with an address, or all that speak without. Not thread safe.</summary>
/// <param name="address">The device's address, or null.</param>
/// <param name="replyTimeout">How long an answer is waited for.</param>
/// <param name="wall">The clock of waits for the device.</param>
internal sealed class AnswerAccount(int? address, TimeSpan replyTimeout, TimeProvider wall)
{
    private readonly AnswerPace _pace = new(replyTimeout);
    private Reply? _trailing;

    /// <summary>Answers that are owed.</summary>
    public LateAnswers Late { get; } = new(replyTimeout, wall);

    /// <summary>The waits of one exchange, one for each time that the question is put.</summary>
    public TimeSpan[] Waits => address is null ? [replyTimeout] : _pace.Waits;

    /// <summary>A wait for this reply is over; what comes from now on is late.</summary>
    public void Trail(Reply? reply) => _trailing = reply;

    /// <summary>An answer came after this time.</summary>
    public void NoteAnswer(TimeSpan took) => _pace.NoteAnswer(took);

    /// <summary>An exchange ended without an answer.</summary>
    public void NoteSilence() => _pace.Forget();

    /// <summary>Bytes that nobody of this account waits for; true when they complete a late answer.</summary>
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
