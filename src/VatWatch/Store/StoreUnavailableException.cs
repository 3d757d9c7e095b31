namespace VatWatch.Store;

/// <summary>The store cannot be opened, read or written now. The message is a sentence for a person.</summary>
public sealed class StoreUnavailableException(string message, Exception? inner = null) : Exception(message, inner)
{
    /// <summary>Whether the disk is full, read-only or failing, so that the same may succeed later.</summary>
    public bool IsOfDisk { get; init; }
}

/// <summary>Another process has the store's folder. The message is a sentence for a person, with the folder and the holder's process id.</summary>
public sealed class StoreInUseException(string message) : Exception(message);
