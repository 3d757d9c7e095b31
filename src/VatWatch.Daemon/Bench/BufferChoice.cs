using VatWatch.Science.Electrodes.Ph;

namespace VatWatch.Daemon.Bench;

/// <summary>The buffers on the bench: a tabulated set, or bottles that carry their own value.</summary>
/// <param name="Word">As the command line writes it.</param>
/// <param name="Buffers">The set; empty for bottles.</param>
internal sealed record BufferChoice(string Word, IReadOnlyList<PhBuffer> Buffers)
{
    /// <summary>
    /// A value names a buffer that is no farther from it than this: makers print 4.00 or 4.01 and 10.00 or 10.01 for the same, but 6.86 is another
    /// buffer than 7.00.
    /// </summary>
    private const double NearPh = 0.05;

    public static IReadOnlyList<BufferChoice> All { get; } =
    [
        new("technical", PhBuffers.TechnicalSet),
        new("primary", PhBuffers.PrimarySet),
        new("bottle", []),
    ];

    /// <summary>Whether the value on the bottle is the value used.</summary>
    public bool IsBottle => Buffers.Count == 0;

    /// <summary>The values of the set, for a sentence.</summary>
    public string Values => string.Join(", ", Buffers.Select(buffer => buffer.LabelPh.ToString("0.00#")));

    /// <summary>The buffer that a value names; null when it names none.</summary>
    public PhBuffer? Named(double label) => IsBottle
        ? PhBuffer.FromBottle(label)
        : Buffers.Where(buffer => Math.Abs(buffer.LabelPh - label) <= NearPh).MinBy(buffer => Math.Abs(buffer.LabelPh - label));

    /// <summary>The buffer that an electrode stands in by its voltage; null when that is not clear.</summary>
    public PhBuffer? Recognised(double millivolts, double temperatureC, PhLine electrode) =>
        BufferRecognition.TryRecognise(millivolts, temperatureC, Buffers, electrode, out var buffer) ? buffer : null;
}

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
