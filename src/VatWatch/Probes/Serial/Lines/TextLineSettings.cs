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

/// <summary>A command that an instrument is given once after its port was opened.</summary>
/// <param name="Ask">What is sent.</param>
/// <param name="Answer">The form of the line that confirms it.</param>
internal sealed record FirstCommand(AskText Ask, LineForm Answer);
