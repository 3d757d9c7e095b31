namespace VatWatch.Store;

/// <summary>Another process has the store's folder. The message is a sentence for a person, with the folder and the holder's process id.</summary>
public sealed class StoreInUseException(string message) : Exception(message);
