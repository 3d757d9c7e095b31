namespace VatWatch.Store;

/// <summary>The store cannot be opened, read or written now. The message is a sentence for a person.</summary>
public sealed class StoreUnavailableException : Exception
{
    /// <summary>A refusal without an exception behind it.</summary>
    public StoreUnavailableException(string message)
        : base(message)
    {
    }

    /// <summary>A refusal with what was caught.</summary>
    public StoreUnavailableException(string message, Exception inner)
        : base(message, inner)
    {
    }

    /// <summary>Whether the disk is full, read-only or failing, so that the same may succeed later.</summary>
    public bool IsOfDisk { get; init; }
}

/// <summary>Another process has the store's folder. The message is a sentence for a person, with the folder and the holder's process id.</summary>
public sealed class StoreInUseException(string message) : Exception(message);
