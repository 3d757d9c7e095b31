namespace VatWatch.Nights.Scoring;

/// <summary>One night's part in a figure.</summary>
/// <param name="Value">In the figure's unit.</param>
/// <param name="FallsShort">What was seen, when it is not what was wanted; null otherwise.</param>
/// <param name="Untellable">Why the night's readings cannot show it; such a case is counted beside the figure and not in it.</param>
internal sealed record Case(int Seed, string Kind, double Value, string? FallsShort, string? Untellable = null);

/// <summary>A line of the table: what is wanted of all nights together, and what was reached.</summary>
/// <param name="Name">What is measured.</param>
/// <param name="Wanted">In words.</param>
/// <param name="Sum">From the nights to the figure.</param>
/// <param name="Holds">Whether it is enough.</param>
/// <param name="Say">The figure in words.</param>
internal sealed record Figure(string Name, string Wanted, Func<IReadOnlyList<double>, double> Sum, Func<double, bool> Holds, Func<double, string> Say)
{
    private readonly List<Case> _cases = [];

    public IReadOnlyList<Case> Cases => _cases;

    /// <summary>Those that the readings can show.</summary>
    public IEnumerable<Case> CouldBeTold => _cases.Where(one => one.Untellable is null);

    public double? Reached => CouldBeTold.Any() ? Sum([.. CouldBeTold.Select(one => one.Value)]) : null;

    public bool IsHeld => Reached is not { } reached || Holds(reached);

    public void Add(Case one) => _cases.Add(one);

    /// <summary>A share of nights, which must be at least this.</summary>
    public static Figure Share(string name, double atLeast) => new(name, Percent(atLeast), Mean, share => share >= atLeast, Percent);

    /// <summary>A share that must lie between two.</summary>
    public static Figure ShareWithin(string name, double low, double high) =>
        new(name, $"{Percent(low)} to {Percent(high)}", Mean, share => share >= low && share <= high, Percent);

    /// <summary>A mean number a night, which must be at most this.</summary>
    public static Figure Rate(string name, double atMost) => new(name, $"at most {atMost}", Mean, rate => rate <= atMost, rate => $"{rate:0.00}");

    public static Figure Median(string name, string wanted, Func<double, bool> holds, string unit) => new(name, wanted, MiddleOf, holds, value => $"{value:0.#} {unit}".TrimEnd());

    public static Figure Least(string name, string wanted, Func<double, bool> holds, string unit) => new(name, wanted, values => values.Min(), holds, value => $"{value:0.#} {unit}");

    private static string Percent(double share) => $"{100 * share:0.#} %";

    private static double Mean(IReadOnlyList<double> values) => values.Average();

    private static double MiddleOf(IReadOnlyList<double> values)
    {
        var ordered = values.Order().ToList();
        return (ordered[(ordered.Count - 1) / 2] + ordered[ordered.Count / 2]) / 2;
    }
}
