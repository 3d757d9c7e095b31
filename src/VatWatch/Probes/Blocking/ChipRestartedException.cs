namespace VatWatch.Probes.Blocking;

/// <summary>
/// The chip no longer has the settings it was given: it lost its supply for a moment, or someone else uses it. It is set up anew and read once
/// more, as after a failed transfer.
/// </summary>
internal sealed class ChipRestartedException(string message) : IOException(message);
