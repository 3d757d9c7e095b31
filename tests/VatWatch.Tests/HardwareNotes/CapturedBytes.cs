using System.Globalization;

namespace VatWatch.Tests.HardwareNotes;

/// <summary>Reads captures that are hexadecimal text: comments after #, columns apart by two spaces and more.</summary>
internal static class CapturedBytes
{
    /// <summary>The columns of every line of a capture; a file without any is an error.</summary>
    public static IReadOnlyList<string[]> Rows(string family, string file)
    {
        var path = Path.Combine(AppContext.BaseDirectory, "captures", family, "captures", file);
        var rows = File.ReadLines(path).Where(line => line.Length > 0 && line[0] != '#')
            .Select(line => line.Split("  ", StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries)).ToList();
        return rows.Count > 0 ? rows : throw new InvalidDataException($"{path} has no line of bytes");
    }

    public static byte[] Bytes(string hexadecimal) => Convert.FromHexString(hexadecimal.Replace(" ", "", StringComparison.Ordinal));

    public static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);
}
