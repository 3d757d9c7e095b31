using System.Diagnostics;
using System.Globalization;
using System.Runtime.CompilerServices;
using CsCheck;

namespace VatWatch.Testing.Fuzz;

/// <summary>
/// Runs a property on many random cases, each made from its own number, so that a run repeats and a failing case is named. VATWATCH_CASES sets how
/// many, VATWATCH_CASE runs a single one.
/// </summary>
internal static class Cases
{
    /// <summary>A case that takes longer hangs, even on a machine that is busy.</summary>
    private static readonly TimeSpan Longest = TimeSpan.FromSeconds(10);

    /// <summary>How many cases are asked for, <paramref name="few"/> when nobody asks.</summary>
    public static int Count(int few) => Number("VATWATCH_CASES") ?? few;

    /// <summary>Runs <paramref name="property"/>, which throws on a case that does not hold.</summary>
    /// <param name="cases">What the cases are.</param>
    /// <param name="few">How many when nobody asks for more.</param>
    /// <param name="property">What holds for each.</param>
    /// <param name="show">A case for people.</param>
    /// <param name="mostBytes">What one case may allocate.</param>
    /// <param name="name">The test, for the figures that a run of many cases prints.</param>
    public static void Hold<T>(Gen<T> cases, int few, Action<T> property, Func<T, string> show, long mostBytes = 64L * 1024 * 1024, [CallerMemberName] string name = "")
    {
        var watch = Stopwatch.StartNew();
        var (first, count) = Number("VATWATCH_CASE") is { } one ? (one, 1) : (0, Count(few));
        long largest = 0;
        for (var at = first; at < first + count; at++)
        {
            // The library's generator, started anew for each case: its own loop repeats only the first of a run.
            var value = cases.Generate(new PCG(1972, Scattered(at)), null, out _);
            var (before, begun) = (GC.GetAllocatedBytesForCurrentThread(), watch.Elapsed);
            try
            {
                property(value);
            }
            catch (Exception wrong)
            {
                throw new InvalidOperationException($"case {at} (VATWATCH_CASE={at} runs it alone): {wrong.Message}\n{show(value)}", wrong);
            }

            var taken = GC.GetAllocatedBytesForCurrentThread() - before;
            largest = Math.Max(largest, taken);
            if (taken > mostBytes || watch.Elapsed - begun > Longest)
            {
                throw new InvalidOperationException($"case {at} (VATWATCH_CASE={at} runs it alone) took {watch.Elapsed - begun} and {taken} bytes\n{show(value)}");
            }
        }

        if (Number("VATWATCH_CASES") is not null)
        {
            Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{name}: {count} cases in {watch.Elapsed.TotalSeconds:0.0} s, at most {largest} bytes for one"));
        }
    }

    /// <summary>Numbers next to each other, far apart: the generator's first numbers resemble each other for seeds that do (splitmix64).</summary>
    private static ulong Scattered(int at)
    {
        unchecked
        {
            var mixed = ((ulong)at + 1) * 0x9E3779B97F4A7C15;
            mixed = (mixed ^ (mixed >> 30)) * 0xBF58476D1CE4E5B9;
            mixed = (mixed ^ (mixed >> 27)) * 0x94D049BB133111EB;
            return mixed ^ (mixed >> 31);
        }
    }

    /// <summary>Bytes for people.</summary>
    public static string Show(byte[] bytes) => Convert.ToHexString(bytes.AsSpan(0, Math.Min(bytes.Length, 2000)));

    private static int? Number(string variable) =>
        Environment.GetEnvironmentVariable(variable) is { Length: > 0 } text ? int.Parse(text, CultureInfo.InvariantCulture) : null;
}
