using System.Globalization;
using VatWatch.Probes.Blocking;

namespace VatWatch.Probes.Kernel;

/// <summary>Reads small files with one number each. Nothing stays open between reads. Used on one thread.</summary>
internal sealed class KernelFiles(TransferWatch watch, TimeProvider wall) : IDisposable
{
    /// <summary>Longest text that is still one number.</summary>
    private const int LongestText = 64;

    /// <summary>
    /// The one file of this name; a <c>*</c> stands for any part of a folder's name, because the kernel numbers its devices anew at each start.
    /// Null when there is none or more than one, with what was seen in <paramref name="fault"/>.
    /// </summary>
    public static string? Find(string path, out string? fault)
    {
        IEnumerable<string> found = ["/"];
        foreach (var part in path.Split('/', StringSplitOptions.RemoveEmptyEntries))
        {
            found = part.Contains('*', StringComparison.Ordinal) ? found.SelectMany(folder => Matching(folder, part)) : found.Select(folder => Path.Combine(folder, part));
        }

        var files = found.Where(File.Exists).Take(2).ToList();
        fault = files.Count switch
        {
            1 => null,
            0 => $"there is no file {path}; wanted a value of the kernel: load its driver, check the chip's wires",
            _ => $"more than one file is {path}, such as {files[0]} and {files[1]}; wanted one: write the folder out as far as it needs",
        };
        return files.Count == 1 ? files[0] : null;
    }

    /// <summary>The number in a file; null when there is no such file. Throws <see cref="IOException"/> when the kernel refuses, <see cref="FormatException"/> when it is no number.</summary>
    public double? Number(string path)
    {
        if (!File.Exists(path))
        {
            return null;
        }

        var text = "";
        watch.Run((_, _) => text = Content(path), [], []);
        return double.TryParse(text.Trim('\0', ' ', '\t', '\r', '\n'), NumberStyles.Float, CultureInfo.InvariantCulture, out var number) && double.IsFinite(number)
            ? number
            : throw new FormatException(Serial.Lines.LinePattern.Show(System.Text.Encoding.UTF8.GetBytes(text)));
    }

    /// <summary>How long ago a file was written.</summary>
    public TimeSpan Age(string path) => wall.GetUtcNow() - new DateTimeOffset(File.GetLastWriteTimeUtc(path), TimeSpan.Zero);

    public void Dispose()
    {
    }

    private static IEnumerable<string> Matching(string folder, string pattern)
    {
        try
        {
            return [.. Directory.EnumerateDirectories(folder, pattern).Order(StringComparer.Ordinal)];
        }
        catch (Exception none) when (none is IOException or UnauthorizedAccessException)
        {
            return [];
        }
    }

    private static string Content(string path)
    {
        using var reader = new StreamReader(path);
        var buffer = new char[LongestText];
        return new string(buffer, 0, reader.ReadBlock(buffer));
    }
}
