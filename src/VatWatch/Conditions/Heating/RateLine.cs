namespace VatWatch.Conditions.Heating;

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

    /// <summary>Through the means from <paramref name="from"/> on; null with fewer than four.</summary>
    public static RateLine? Through(IReadOnlyList<LiquorMean> means, TimeSpan from)
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
        return new RateLine(slope, scatter / Math.Sqrt(stt), TimeSpan.FromHours(meanT), means[^1].At - means[first].At, newest);
    }
}
