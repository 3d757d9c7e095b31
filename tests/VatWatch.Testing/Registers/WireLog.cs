using System.Globalization;

namespace VatWatch.Testing.Registers;

/// <summary>
/// Every transfer on a fake bus, in order, one line each: <c>48 W 01 C3 83</c> for a write to address 0x48, <c>48 R C3 83</c> for a read,
/// <c>48 W 01 R C3 83</c> for both in one transfer, <c>48 !</c> for one that failed. Thread safe.
/// </summary>
public sealed class WireLog
{
    private readonly Lock _gate = new();
    private readonly List<string> _lines = [];

    /// <summary>The lines so far.</summary>
    public IReadOnlyList<string> Lines
    {
        get
        {
            lock (_gate)
            {
                return [.. _lines];
            }
        }
    }

    /// <summary>The lines so far, which are then forgotten.</summary>
    public IReadOnlyList<string> Take()
    {
        lock (_gate)
        {
            var taken = _lines.ToList();
            _lines.Clear();
            return taken;
        }
    }

    /// <summary>Whether lines are kept; off for long runs.</summary>
    public bool Keeps { get; set; } = true;

    internal void Add(int address, ReadOnlySpan<byte> written, ReadOnlySpan<byte> read) =>
        Add($"{Hex([(byte)address])}{Part("W", written)}{Part("R", read)}");

    internal void AddFailure(int address) => Add($"{Hex([(byte)address])} !");

    private static string Part(string kind, ReadOnlySpan<byte> bytes) => bytes.IsEmpty ? "" : $" {kind} {Hex(bytes)}";

    private static string Hex(ReadOnlySpan<byte> bytes)
    {
        var parts = new string[bytes.Length];
        for (var i = 0; i < bytes.Length; i++)
        {
            parts[i] = bytes[i].ToString("X2", CultureInfo.InvariantCulture);
        }

        return string.Join(' ', parts);
    }

    private void Add(string line)
    {
        if (Keeps)
        {
            lock (_gate)
            {
                _lines.Add(line);
            }
        }
    }
}
