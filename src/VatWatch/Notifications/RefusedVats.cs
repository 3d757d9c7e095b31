namespace VatWatch.Notifications;

/// <summary>
/// Vats whose notifications the far side does not take while it takes those of others: they wait, each with growing waits of its own, so that
/// one refused topic holds up no other vat. Not thread safe.
/// </summary>
internal sealed class RefusedVats(DeliveryTimings timings, TimeProvider time)
{
    private readonly Dictionary<VatId, Refusal> _refusals = [];

    /// <summary>Why one of them is refused; null when none is.</summary>
    public string? Reason => _refusals.Values.Select(refusal => refusal.Reason).FirstOrDefault();

    /// <summary>Whether the next try of a vat is still to be waited for.</summary>
    public bool Waits(VatId vat) => _refusals.TryGetValue(vat, out var refusal) && refusal.Left(time) > TimeSpan.Zero;

    /// <summary>Counts a refusal: the wait until the next try, and whether the reason is new.</summary>
    public (TimeSpan Wait, bool IsNew) Add(VatId vat, string reason)
    {
        var isKnown = _refusals.TryGetValue(vat, out var refusal);
        refusal ??= _refusals[vat] = new(new Backoff(timings.FirstRefusedRetry, timings.MostRefusedRetry, Random.Shared.NextDouble));
        var isNew = !isKnown || refusal.Reason != reason;
        return (refusal.Again(reason, time), isNew);
    }

    /// <summary>A vat is taken again; false when it was never refused.</summary>
    public bool Remove(VatId vat) => _refusals.Remove(vat);

    /// <summary>Forgets vats of which nothing waits any more.</summary>
    public void KeepOnly(IEnumerable<VatId> waiting)
    {
        foreach (var gone in _refusals.Keys.Except(waiting).ToList())
        {
            _refusals.Remove(gone);
        }
    }

    /// <summary>Lets every vat be tried at once.</summary>
    public void RetryAll()
    {
        foreach (var refusal in _refusals.Values)
        {
            refusal.RetryNow();
        }
    }

    /// <summary>How long until the next try, at most <paramref name="most"/>.</summary>
    public TimeSpan UntilNextTry(TimeSpan most)
    {
        var next = _refusals.Values.Select(refusal => refusal.Left(time)).Append(most).Min();
        return next > TimeSpan.Zero ? next : TimeSpan.FromMilliseconds(1);
    }

    private sealed class Refusal(Backoff waits)
    {
        private long _since;
        private TimeSpan _wait;

        public string Reason { get; private set; } = "";

        public TimeSpan Left(TimeProvider time) => _wait == TimeSpan.Zero ? TimeSpan.Zero : _wait - time.GetElapsedTime(_since);

        public TimeSpan Again(string reason, TimeProvider time)
        {
            (Reason, _since, _wait) = (reason, time.GetTimestamp(), waits.Next());
            return _wait;
        }

        public void RetryNow()
        {
            _wait = TimeSpan.Zero;
            waits.Reset();
        }
    }
}
