namespace VatWatch.Science;

/// <summary>
/// A published table against temperature, read by straight lines between its rows and continued by its end rows beyond them.
/// Immutable; safe on any thread.
/// </summary>
internal sealed class TemperatureTable
{
    private readonly double[] temperaturesC;
    private readonly double[] values;
    private readonly double vouchedLowC;
    private readonly double vouchedHighC;

    /// <param name="vouchedLowC">Lowest temperature the source gives itself, °C; rows below it are somebody's extension.</param>
    /// <param name="vouchedHighC">Highest temperature the source gives itself, °C; rows above it are somebody's extension.</param>
    /// <param name="rows">At least two rows, rising in temperature.</param>
    internal TemperatureTable(double vouchedLowC, double vouchedHighC, params (double TemperatureC, double Value)[] rows)
    {
        temperaturesC = new double[rows.Length];
        values = new double[rows.Length];
        for (var i = 0; i < rows.Length; i++)
            (temperaturesC[i], values[i]) = rows[i];

        this.vouchedLowC = vouchedLowC;
        this.vouchedHighC = vouchedHighC;
    }

    /// <summary>A table with a row each <paramref name="stepC"/> from <paramref name="firstC"/> on, all of them the source's own.</summary>
    internal static TemperatureTable Evenly(double firstC, double stepC, params ReadOnlySpan<double> values)
    {
        var rows = new (double, double)[values.Length];
        for (var i = 0; i < values.Length; i++)
            rows[i] = (firstC + i * stepC, values[i]);

        return new TemperatureTable(firstC, firstC + (values.Length - 1) * stepC, rows);
    }

    internal Estimate At(double temperatureC)
    {
        Wanted.TemperatureC(temperatureC);
        var upper = 1;
        while (upper < temperaturesC.Length - 1 && temperatureC > temperaturesC[upper])
            upper++;

        var share = (temperatureC - temperaturesC[upper - 1]) / (temperaturesC[upper] - temperaturesC[upper - 1]);
        var value = values[upper - 1] + share * (values[upper] - values[upper - 1]);
        return Estimate.InRange(value, temperatureC, vouchedLowC, vouchedHighC);
    }
}
