namespace VatWatch.Vats.Configuration;

/// <summary>One setting as it was read.</summary>
/// <param name="Path">Key path, for example <c>vats[0].temperature.low</c>.</param>
/// <param name="Value">As written in the file, or the default in words; an address shows no more than its server.</param>
/// <param name="IsFromFile">Whether the file says it; otherwise it is the default.</param>
public sealed record ConfigSetting(string Path, string Value, bool IsFromFile);
