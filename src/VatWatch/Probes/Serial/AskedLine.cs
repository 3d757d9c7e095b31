namespace VatWatch.Probes.Serial;

/// <summary>What came back for one question in text.</summary>
/// <param name="Line">The line without its ending, or null when no whole line came in time.</param>
/// <param name="Instead">What came instead, in words; null when nothing did.</param>
/// <param name="Held">Why nothing was asked, in words; null when it was.</param>
internal readonly record struct AskedLine(byte[]? Line, string? Instead, string? Held);
