namespace VatWatch.Probes.Serial;

/// <summary>The validated settings of one <c>text-line</c> probe.</summary>
/// <param name="Ask">What is sent to get a line; null when the instrument streams.</param>
/// <param name="Ending">What ends a line; default LF, with or without a CR before it.</param>
/// <param name="Pattern">How the value is got out of the line.</param>
internal sealed record TextLineSettings(AskText? Ask, LineEnding Ending, LinePattern Pattern);
