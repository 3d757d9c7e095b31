namespace VatWatch.Probes.Serial.Lines;

/// <summary>Collects the answer to one request from the bytes that arrive. Used by one exchange at a time.</summary>
internal abstract class Reply
{
    /// <summary>Address of the device whose answers carry it and a checksum, so that nobody else's can be taken for them; null where they do not.</summary>
    public virtual int? Address => null;

    /// <summary>What is asked. Answers to equal questions may be taken one for the other.</summary>
    public abstract object Question { get; }

    /// <summary>The answer as it came; empty while there is none.</summary>
    public abstract ReadOnlyMemory<byte> Said { get; }

    /// <summary>The number in it as sent, where answers to other questions may look the same but for their number; else null.</summary>
    public virtual double? Number => null;

    /// <summary>Whether the answer is whole and undamaged.</summary>
    public virtual bool IsSound => true;

    /// <summary>Takes bytes; true when they complete the answer. Bytes after it in the same call are dropped.</summary>
    public abstract bool Take(ReadOnlySpan<byte> bytes);

    /// <summary>Another collector for answers to the same request.</summary>
    public abstract Reply Another();

    /// <summary>Forgets what has come so far; an answer in lines goes on from <paramref name="begun"/>, the start of a line that has not ended.</summary>
    public abstract void Reset(ReadOnlySpan<byte> begun = default);
}
