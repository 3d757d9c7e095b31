namespace VatWatch.Probes.Blocking;

/// <summary>What answers is not the chip that the configuration names. The message is a clause for people.</summary>
internal sealed class WrongChipException(string message) : Exception(message);
