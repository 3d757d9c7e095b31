namespace VatWatch.Daemon.Verbs.Init;

/// <summary>A flag that will not do; the message is a sentence for the person.</summary>
internal sealed class WrongFlagException(string sentence) : Exception(sentence);
