using System.Globalization;

namespace VatWatch.Testing;

/// <summary>
/// Sizes and figures of the fault campaigns. A campaign is small unless <c>VATWATCH_FAULTS=full</c>; each figure is a line of the file that
/// <c>VATWATCH_FAULT_FIGURES</c> names (campaign, size, figure, pass figure, held or NOT HELD, parted by tabs), also when it is not held.
/// </summary>
internal static class FaultFigures
{
    private static readonly Lock Turn = new();

    /// <summary>Whether the campaigns run in full size.</summary>
    public static bool IsFull { get; } = Environment.GetEnvironmentVariable("VATWATCH_FAULTS") == "full";

    /// <summary>The size of a campaign.</summary>
    public static T Size<T>(T small, T full) => IsFull ? full : small;

    /// <summary>A figure that must not be above <paramref name="most"/>: written down, then held to it.</summary>
    public static void AtMost(string campaign, string size, string figure, double measured, double most, string unit = "") =>
        Hold(campaign, size, Invariant($"{figure} {measured:0.##} {unit}"), Invariant($"at most {most:0.##} {unit}"), measured <= most);

    /// <summary>A figure that must not be below <paramref name="least"/>: written down, then held to it.</summary>
    public static void AtLeast(string campaign, string size, string figure, double measured, double least, string unit = "") =>
        Hold(campaign, size, Invariant($"{figure} {measured:0.##} {unit}"), Invariant($"at least {least:0.##} {unit}"), measured >= least);

    /// <summary>A figure in words: written down, then <paramref name="held"/> or a fault.</summary>
    public static void Hold(string campaign, string size, string measured, string pass, bool held)
    {
        if (Environment.GetEnvironmentVariable("VATWATCH_FAULT_FIGURES") is { Length: > 0 } file)
        {
            lock (Turn)
            {
                File.AppendAllText(file, string.Join('\t', campaign, size, measured.Trim(), pass.Trim(), held ? "held" : "NOT HELD") + "\n");
            }
        }

        if (!held)
        {
            throw new InvalidOperationException($"{campaign} ({size}): {measured.Trim()}, wanted {pass.Trim()}");
        }
    }

    private static string Invariant(FormattableString words) => words.ToString(CultureInfo.InvariantCulture);
}
