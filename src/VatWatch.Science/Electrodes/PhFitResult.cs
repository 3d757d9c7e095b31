namespace VatWatch.Science.Electrodes;

/// <summary>A fitted line and how far each buffer lies from it. Immutable; safe on any thread.</summary>
/// <param name="Line">The least-squares line.</param>
/// <param name="ResidualsMillivolts">Measured minus line for each buffer, mV, in the order the points were given.</param>
public sealed record PhFitResult(PhLine Line, IReadOnlyList<double> ResidualsMillivolts)
{
    /// <summary>The largest residual without its sign, mV.</summary>
    public double WorstResidualMillivolts => ResidualsMillivolts.Max(Math.Abs);
}
