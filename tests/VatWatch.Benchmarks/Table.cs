using System.Globalization;
using System.Runtime.InteropServices;
using System.Text;

namespace VatWatch.Benchmarks;

/// <summary>Prints one line per figure: what was measured, its floor, their ratio and the bound to hold; and keeps them for the page.</summary>
internal sealed class Table
{
    private readonly List<(string What, string How, string Figure, string Bound)> _rows = [];
    private bool _held = true;

    /// <summary>Whether every bound printed so far was held.</summary>
    public bool Held => _held;

    public void Ratio(string what, double measured, double floor, string unit, double bound) =>
        Line(what, string.Create(CultureInfo.InvariantCulture, $"{measured:0.##} {unit} against {floor:0.##} {unit}"), measured / floor, bound);

    public void Share(string what, string how, double share, double bound) => Line(what, how, share, bound);

    /// <summary>A figure without a bound.</summary>
    public void Note(string what, string how, string figure) => Add(what, how, figure, "");

    /// <summary>Writes the rows of this run, and the machine they were made on, as a page.</summary>
    public void Write(string file)
    {
        var page = new StringBuilder();
        page.Append("# Figures\n\nThe last table of `dotnet run -c Release --project tests/VatWatch.Benchmarks -- --page FILE`, written by it.\n");
        page.Append("Each figure is a ratio against a floor that was measured in the same run on the same machine; *at most* is the bound that is aimed at.\n\n");
        page.Append(CultureInfo.InvariantCulture, $"Made {DateTime.UtcNow:yyyy-MM-dd HH:mm} UTC on {Machine()}.\n\n");
        page.Append("| figure | measured | ratio | at most | |\n|---|---|---:|---:|---|\n");
        foreach (var (what, how, figure, bound) in _rows)
        {
            var at = bound.Split(' ', 2);
            page.Append(CultureInfo.InvariantCulture, $"| {what} | {how} | {figure} | {at[0]} | {(at.Length > 1 ? at[1] : "")} |\n");
        }

        File.WriteAllText(file, page.ToString());
    }

    private void Line(string what, string how, double figure, double bound)
    {
        var held = figure <= bound;
        _held &= held;
        Add(what, how, figure.ToString("0.###", CultureInfo.InvariantCulture), string.Create(CultureInfo.InvariantCulture, $"{bound:0.###} {(held ? "held" : "NOT HELD")}"));
    }

    private void Add(string what, string how, string figure, string bound)
    {
        _rows.Add((what, how, figure, bound));
        Console.Out.WriteLine($"{what,-72} {how,-40} {figure,10}  {(bound.Length > 0 ? "at most " + bound : "")}");
    }

    private static string Machine()
    {
        var processor = File.ReadLines("/proc/cpuinfo").FirstOrDefault(line => line.StartsWith("model name", StringComparison.Ordinal))?.Split(':', 2)[1].Trim() ?? "an unnamed processor";
        var gibibytes = GC.GetGCMemoryInfo().TotalAvailableMemoryBytes / 1024.0 / 1024 / 1024;
        return string.Create(
            CultureInfo.InvariantCulture,
            $"{Environment.ProcessorCount} cores of {processor}, {gibibytes:0} GiB, {RuntimeInformation.OSDescription.Split('#')[0].Trim()}, {RuntimeInformation.FrameworkDescription}; load when it began {Load}");
    }

    /// <summary>Read before anything is measured.</summary>
    private static readonly string Load = File.ReadAllText("/proc/loadavg").Split(' ')[0];
}
