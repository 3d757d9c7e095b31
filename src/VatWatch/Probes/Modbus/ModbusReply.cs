using VatWatch.Probes.Serial.Lines;

namespace VatWatch.Probes.Modbus;

/// <summary>
/// Collects the answer to one request from the bytes that arrive. Frames are known by their length and checksum, since the pauses between
/// them cannot be seen from here; frames of other devices and an echo of the request are passed over.
/// </summary>
/// <remarks>Frames: Modbus application protocol V1.1b3, 6.3, 6.4 and 7; serial line guide V1.02, 2.5.1.</remarks>
internal sealed class ModbusReply(ModbusSettings settings) : Reply
{
    /// <summary>Longest frame on the wire.</summary>
    private const int LongestFrame = 256;

    /// <summary>Address, function, count or code, and two bytes of checksum.</summary>
    private const int Overhead = 5;

    private const byte ErrorBit = 0x80;

    private readonly byte[] _bytes = new byte[LongestFrame];
    private readonly byte[] _request = settings.Request();
    private readonly int _valueBytes = settings.Format.Bytes();
    private int _length;

    public override int? Address => settings.Address;

    /// <summary>Answers to other registers look the same when as many of them were asked for by the same function, so the whole request is the question.</summary>
    public override object Question => settings with { Scale = 1, Offset = 0 };

    public override ReadOnlyMemory<byte> Said => Refusal is { } code ? new byte[] { code } : Value;

    public override double? Number => Value.IsEmpty ? null : settings.Format.Decode(Value.Span);

    public override bool IsSound => Wrong is null;

    /// <summary>The registers' bytes; empty unless <see cref="Reply.Take"/> found the answer.</summary>
    public ReadOnlyMemory<byte> Value { get; private set; }

    /// <summary>The code with which the device refuses, or null.</summary>
    public byte? Refusal { get; private set; }

    /// <summary>What is wrong with what came, in words; null when nothing came, or an answer.</summary>
    public string? Wrong { get; private set; }

    public override Reply Another() => new ModbusReply(settings);

    public override void Reset(ReadOnlySpan<byte> begun = default)
    {
        _length = 0;
        Value = default;
        Refusal = null;
        Wrong = null;
    }

    public override bool Take(ReadOnlySpan<byte> bytes)
    {
        Append(bytes);
        Wrong = $"bytes that are no answer to the request ({Show()})";
        for (var start = 0; start < _length; start++)
        {
            if (IsAnswer(_bytes.AsSpan(start, _length - start)))
            {
                Wrong = null;
                return true;
            }
        }

        return IsDamaged();
    }

    /// <summary>Keeps what came last; the answer is in it.</summary>
    private void Append(ReadOnlySpan<byte> bytes)
    {
        bytes = bytes[Math.Max(0, bytes.Length - LongestFrame)..];
        var over = Math.Max(0, _length + bytes.Length - LongestFrame);
        _bytes.AsSpan(over, _length - over).CopyTo(_bytes);
        bytes.CopyTo(_bytes.AsSpan(_length - over));
        _length += bytes.Length - over;
    }

    /// <summary>Whether a whole frame of the asked device, with a checksum that is right, begins here.</summary>
    private bool IsAnswer(ReadOnlySpan<byte> bytes)
    {
        if (bytes.Length < Overhead || bytes[0] != settings.Address)
        {
            return false;
        }

        if (bytes[1] == (settings.Function | ErrorBit) && HasChecksum(bytes[..Overhead]))
        {
            Refusal = bytes[2];
            return true;
        }

        var whole = Overhead + _valueBytes;
        if (bytes[1] == settings.Function && bytes[2] == _valueBytes && bytes.Length >= whole && HasChecksum(bytes[..whole]))
        {
            Value = bytes.Slice(3, _valueBytes).ToArray();
            return true;
        }

        return false;
    }

    /// <summary>
    /// Whether what came first was meant as the answer and is whole, but wrong: then nothing more is to be waited for. An echo of the request
    /// is no answer, nor is a frame of another device.
    /// </summary>
    private bool IsDamaged()
    {
        var first = _bytes.AsSpan(0, _length);
        if (first.StartsWith(_request))
        {
            first = first[_request.Length..];
        }

        if (first.Length < Overhead || first[0] != settings.Address || _request.AsSpan().StartsWith(first))
        {
            return false;
        }

        var whole = first[1] == (settings.Function | ErrorBit) ? Overhead : Overhead + _valueBytes;
        if (first.Length < whole)
        {
            return false;
        }

        Wrong = HasChecksum(first[..whole])
            ? $"function {first[1]} with {first[2]} bytes; wanted function {settings.Function} with {_valueBytes} ({Show()})"
            : $"a frame with a wrong checksum ({Show()})";
        return true;
    }

    private static bool HasChecksum(ReadOnlySpan<byte> frame)
    {
        var sum = Crc.Modbus(frame[..^2]);
        return frame[^2] == (byte)(sum & 0xFF) && frame[^1] == (byte)(sum >> 8);
    }

    private string Show() => _length > 16
        ? $"{Convert.ToHexString(_bytes, 0, 16)}... {_length} bytes"
        : Convert.ToHexString(_bytes, 0, _length);
}
