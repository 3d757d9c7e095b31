using System.Text.RegularExpressions;

namespace VatWatch.Probes.Serial.Lines;

/// <summary>A command that an instrument is given once after its port was opened.</summary>
/// <param name="Ask">What is sent.</param>
/// <param name="Answer">The form of the line that confirms it.</param>
internal sealed record FirstCommand(AskText Ask, Regex Answer);
