namespace VatWatch.Vats.Configuration;

/// <summary>One thing wrong with the configuration.</summary>
/// <param name="Path">Key path, for example <c>vats[0].temperature.low</c>; empty for the file as a whole.</param>
/// <param name="Seen">What stands there, as written.</param>
/// <param name="Wanted">What should stand there.</param>
public sealed record ConfigFault(string Path, string Seen, string Wanted)
{
    /// <summary>One sentence for the person who wrote the file.</summary>
    public override string ToString() => $"{(Path.Length == 0 ? "the configuration" : Path)} is {Seen}; wanted {Wanted}.";
}
