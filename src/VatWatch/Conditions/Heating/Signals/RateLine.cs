namespace VatWatch.Conditions.Heating.Signals;

/// <summary>The straight line through a few means of one regime.</summary>
/// <param name="KPerHour">Slope, K/h.</param>
/// <param name="Sigma">Its standard error, K/h.</param>
/// <param name="MeanAt">Where on the time axis the slope was measured: the middle of the points, monotonic.</param>
/// <param name="Span">From the first to the last point.</param>
/// <param name="NewestC">The line's value at the newest point, °C.</param>
internal readonly record struct RateLine(double KPerHour, double Sigma, TimeSpan MeanAt, TimeSpan Span, double NewestC)
{
    /// <summary>Scatter of a minute's mean that is assumed at least, K: few points may lie on a line by chance.</summary>
    private const double LeastScatterK = 0.005;

    /// <summary>A value within one step of a thermometer is known to about this share of the step (uniform: 1/√12), at either end of the line.</summary>
    private const double StepShare = 0.4;

    /// <summary>A slope this sure of being a rise comes from a heater that is on.</summary>
    private const double SureDeviations = 2;

    /// <summary>A rise of so many steps is one of the liquor, whichever way the thermometer rounds; finer steps than this show it anyway, K.</summary>
    private const double BriskSteps = 3;
    private const double CoarseK = 0.2;

    /// <summary>Whether the slope is surely a rise.</summary>
    public bool Rises => KPerHour >= SureDeviations * Sigma;

    /// <summary>
    /// What a coarse thermometer shows of a rise that has just begun: the shortest line up to the newest mean with so many of its steps, where it surely rises faster than
    /// <paramref name="slow"/>, which a hold before it holds back; otherwise that line.
    /// </summary>
    /// <param name="slow">The line through all that counts; null with too little of it.</param>
    /// <param name="means">In order of time.</param>
    /// <param name="from">The first that counts.</param>
    /// <param name="least">Shortest line.</param>
    /// <param name="stepK">Step of the thermometer, K.</param>
    public static RateLine? Brisker(RateLine? slow, IReadOnlyList<LiquorMean> means, TimeSpan from, TimeSpan least, double stepK)
    {
        for (var i = means.Count - 1; stepK > CoarseK && i >= 0 && means[i].At >= from; i--)
        {
            if (means[^1].At - means[i].At >= least && means[^1].LiquorC - means[i].LiquorC >= BriskSteps * stepK)
            {
                return Through(means, means[i].At, stepK) is { } brisk && brisk.KPerHour - SureDeviations * brisk.Sigma > (slow?.KPerHour + slow?.Sigma ?? 0) ? brisk : slow;
            }
        }

        return slow;
    }

    /// <summary>Through the means from <paramref name="from"/> on; null with fewer than four.</summary>
    /// <param name="means">In order of time.</param>
    /// <param name="from">The first that counts.</param>
    /// <param name="stepK">Step of the thermometer, K: no number of points shows a rise within one step.</param>
    public static RateLine? Through(IReadOnlyList<LiquorMean> means, TimeSpan from, double stepK = 0)
    {
        var first = means.Count;
        while (first > 0 && means[first - 1].At >= from)
        {
            first--;
        }

        var n = means.Count - first;
        if (n < 4)
        {
            return null;
        }

        double meanT = 0, meanC = 0;
        for (var i = first; i < means.Count; i++)
        {
            meanT += means[i].At.TotalHours / n;
            meanC += means[i].LiquorC / n;
        }

        double stt = 0, stc = 0, scc = 0;
        for (var i = first; i < means.Count; i++)
        {
            var (t, c) = (means[i].At.TotalHours - meanT, means[i].LiquorC - meanC);
            stt += t * t;
            stc += t * c;
            scc += c * c;
        }

        var slope = stc / stt;
        var scatter = Math.Max(Math.Sqrt(Math.Max(0, scc - slope * stc) / (n - 2)), LeastScatterK);
        var newest = meanC + slope * (means[^1].At.TotalHours - meanT);
        var span = means[^1].At - means[first].At;
        var byStep = StepShare * stepK / span.TotalHours;
        return new RateLine(slope, Math.Sqrt(scatter * scatter / stt + byStep * byStep), TimeSpan.FromHours(meanT), span, newest);
    }
}
