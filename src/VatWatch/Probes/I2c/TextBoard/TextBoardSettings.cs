using VatWatch.Probes.Serial.Lines;

namespace VatWatch.Probes.I2c.TextBoard;

/// <summary>How an electrode board of the text kind is read.</summary>
/// <param name="Ask">What it is asked.</param>
/// <param name="Wait">How long it works on an answer.</param>
/// <param name="Pattern">How the value is got out of the text.</param>
internal sealed record TextBoardSettings(AskText Ask, TimeSpan Wait, LinePattern Pattern);
