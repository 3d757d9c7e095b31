namespace VatWatch.Testing;

/// <summary>A write that came to <see cref="RecordingInflux"/>.</summary>
/// <param name="Lines">Its points.</param>
/// <param name="Query">Query of the address.</param>
/// <param name="IsGzip">Whether it was compressed.</param>
/// <param name="Authorization">The header.</param>
internal sealed record RecordedWrite(IReadOnlyList<string> Lines, string Query, bool IsGzip, string Authorization);
