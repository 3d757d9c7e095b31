namespace VatWatch.Notifications.Mqtt.Connection;

/// <summary>Follows a stream of packets by the lengths that they announce. Not thread safe.</summary>
/// <remarks>The fixed header is a byte of kind and a length of one to four bytes, the lowest seven bits first: MQTT 5, 2.1.4 and 1.5.5.</remarks>
internal sealed class PacketLength
{
    private const int More = 0x80;
    private const int BitsOfLength = 7;
    private const int MostLengthBytes = 4;
    private const int AtKind = -1;
    private int _lengthBytes = AtKind;
    private int _announced;
    private int _rest;

    /// <summary>Passes bytes on.</summary>
    /// <returns>The largest length announced in them, bytes, so far as it has come; the largest number for a length of more than four bytes.</returns>
    public int Pass(ReadOnlySpan<byte> bytes)
    {
        var most = 0;
        while (bytes.Length > 0)
        {
            if (_rest > 0)
            {
                var body = Math.Min(_rest, bytes.Length);
                _rest -= body;
                bytes = bytes[body..];
                continue;
            }

            most = Math.Max(most, Take(bytes[0]));
            bytes = bytes[1..];
        }

        return most;
    }

    /// <summary>Takes a byte of a header.</summary>
    private int Take(byte next)
    {
        if (_lengthBytes == AtKind)
        {
            (_lengthBytes, _announced) = (0, 0);
            return 0;
        }

        if (_lengthBytes == MostLengthBytes)
        {
            return int.MaxValue;
        }

        _announced |= (next & (More - 1)) << (BitsOfLength * _lengthBytes++);
        if ((next & More) == 0)
        {
            (_rest, _lengthBytes) = (_announced, AtKind);
        }

        return _announced;
    }
}
