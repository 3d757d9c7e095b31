namespace VatWatch.Probes.Recorded;

/// <summary>A file that is no recorded log at all: no line of it can be read. The message says what was seen and what was wanted.</summary>
public sealed class RecordedLogException(string message) : Exception(message);
