using VatWatch.Science.Electrodes;

namespace VatWatch.Daemon.Bench;

/// <summary>Check solutions by the words of the command line.</summary>
internal static class CheckSolutionText
{
    public static IReadOnlyDictionary<string, CheckSolution> All { get; } = new Dictionary<string, CheckSolution>(StringComparer.Ordinal)
    {
        ["zobell"] = CheckSolution.ZoBell,
        ["zobell-nordstrom"] = CheckSolution.ZoBellNordstrom,
        ["light"] = CheckSolution.Light,
        ["quinhydrone-4"] = CheckSolution.QuinhydronePh4,
        ["quinhydrone-7"] = CheckSolution.QuinhydronePh7,
        ["quinhydrone-6.865"] = CheckSolution.QuinhydronePh6865,
    };
}
