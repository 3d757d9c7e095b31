namespace VatWatch.Probes;

/// <summary>A bus whose bytes can be shown to a person who brings an instrument up.</summary>
public interface IOverheardBus : IProbeBus
{
    /// <summary>Takes what goes over the bus from its next opening on, possibly on another thread; null for nobody.</summary>
    Action<OverheardBytes>? Overhear { get; set; }
}

/// <summary>Bytes that went over a bus in one piece.</summary>
/// <param name="Sent">True for those sent by this side.</param>
public readonly record struct OverheardBytes(bool Sent, ReadOnlyMemory<byte> Bytes)
{
    /// <summary>For people: text where it is text, with its control signs escaped, else hexadecimal pairs.</summary>
    public override string ToString() => IsText(Bytes.Span) ? Serial.Lines.AskText.Show(Bytes.Span) : Convert.ToHexString(Bytes.Span) switch
    {
        var digits => string.Join(' ', Enumerable.Range(0, digits.Length / 2).Select(at => digits.Substring(2 * at, 2))),
    };

    private static bool IsText(ReadOnlySpan<byte> bytes) => !bytes.ContainsAnyExcept(TextBytes);

    private static readonly System.Buffers.SearchValues<byte> TextBytes =
        System.Buffers.SearchValues.Create([.. "\r\n\t"u8, .. Enumerable.Range(0x20, 0x7F - 0x20).Select(value => (byte)value)]);
}
