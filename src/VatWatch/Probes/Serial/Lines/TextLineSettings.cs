namespace VatWatch.Probes.Serial.Lines;

/// <summary>The validated settings of one <c>text-line</c> probe.</summary>
/// <param name="Ask">What is sent to get a line; null when the instrument streams.</param>
/// <param name="Ending">What ends a line; found by itself unless set.</param>
/// <param name="Pattern">How the value is got out of the line.</param>
internal sealed record TextLineSettings(AskText? Ask, LineEnding Ending, LinePattern Pattern)
{
    /// <summary>What the instrument is told once after the port was opened, in this order.</summary>
    public IReadOnlyList<FirstCommand> First { get; init; } = [];
}
