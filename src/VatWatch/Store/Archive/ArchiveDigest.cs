using System.Buffers.Binary;
using System.Security.Cryptography;
using System.Text;

namespace VatWatch.Store.Archive;

/// <summary>A check sum (SHA-256) over everything that readings hold, so that what was read back can be told to be what was written. Not thread safe.</summary>
internal sealed class ArchiveDigest : IDisposable
{
    private readonly IncrementalHash _hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);

    /// <summary>Adds readings, in an order that both sides keep.</summary>
    public void Add(IReadOnlyList<StoredMeasurement> rows)
    {
        foreach (var row in rows)
        {
            var m = row.Measurement;
            Add(row.Key, row.Run, m.Stamp.Monotonic.Ticks, m.Stamp.UtcTrusted ? 1 : 0, QualityCode.Of(m.Quality), (long)m.Quantity,
                m.Raw is null ? 0 : 1, BitConverter.DoubleToInt64Bits(m.Raw ?? 0), m.Value is null ? 0 : 1, BitConverter.DoubleToInt64Bits(m.Value ?? 0),
                m.Calibration is null ? 0 : 1, m.Calibration ?? 0);
            Add(m.Probe.Value);
            Add(m.Reason ?? "");
        }
    }

    /// <summary>The sum of all that was added, in hexadecimal digits; begins anew.</summary>
    public string Take() => Convert.ToHexStringLower(_hash.GetHashAndReset());

    public void Dispose() => _hash.Dispose();

    private void Add(params ReadOnlySpan<long> numbers)
    {
        Span<byte> bytes = stackalloc byte[numbers.Length * sizeof(long)];
        for (var i = 0; i < numbers.Length; i++)
        {
            BinaryPrimitives.WriteInt64LittleEndian(bytes[(i * sizeof(long))..], numbers[i]);
        }

        _hash.AppendData(bytes);
    }

    private void Add(string words)
    {
        var bytes = Encoding.UTF8.GetBytes(words);
        Add((long)bytes.Length);
        _hash.AppendData(bytes);
    }
}
