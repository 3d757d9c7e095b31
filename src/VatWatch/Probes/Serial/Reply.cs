namespace VatWatch.Probes.Serial;

/// <summary>Collects the answer to one request from the bytes that arrive. Used by one exchange at a time.</summary>
internal abstract class Reply
{
    /// <summary>Takes bytes; true when they complete the answer. Bytes after it in the same call are dropped.</summary>
    public abstract bool Take(ReadOnlySpan<byte> bytes);

    /// <summary>Another collector for answers to the same request.</summary>
    public abstract Reply Another();

    /// <summary>Forgets what has come so far.</summary>
    public abstract void Reset();
}
