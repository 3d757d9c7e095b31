namespace VatWatch.Daemon.Bench;

/// <summary>Why buffers make no calibration, for people.</summary>
internal static class BufferFault
{
    /// <summary>The sentence of a refusal without what .NET adds about parameters.</summary>
    public static string Sentence(ArgumentOutOfRangeException refusal)
    {
        var text = refusal.Message.Split(" (Parameter", 2)[0].Split('\n', 2)[0].Trim();
        return text.EndsWith('.') ? text : text + ".";
    }
}
