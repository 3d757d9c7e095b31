namespace VatWatch.Probes.Serial;

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
