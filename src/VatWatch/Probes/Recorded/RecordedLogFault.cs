namespace VatWatch.Probes.Recorded;

/// <summary>A line of a recorded log that could not be read and was left out.</summary>
/// <param name="Line">Number of the line it began on, from 1.</param>
/// <param name="Sentence">What was seen and what was wanted.</param>
public sealed record RecordedLogFault(int Line, string Sentence)
{
    public override string ToString() => $"line {Line}: {Sentence}";
}
