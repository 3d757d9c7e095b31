namespace VatWatch.Science.Electrodes.Ph;

/// <summary>A calibration buffer: a name and its pH against temperature. Immutable; safe on any thread.</summary>
public sealed class PhBuffer
{
    private readonly TemperatureTable? table;
    private readonly double labelPh;

    internal PhBuffer(string name, double labelPh, TemperatureTable table)
    {
        Name = name;
        this.labelPh = labelPh;
        this.table = table;
    }

    private PhBuffer(double bottlePh)
    {
        Name = $"bottle {bottlePh:0.00#}";
        labelPh = bottlePh;
    }

    /// <summary>The name it is written and shown by, such as <c>technical 10.01</c>.</summary>
    public string Name { get; }

    /// <summary>The value on its label, pH at 25 °C (or as given, for a bottle's own value).</summary>
    public double LabelPh => labelPh;

    /// <summary>
    /// A buffer whose pH at the temperature of use was read off the bottle. Makers differ by 0.01 to 0.02, so the bottle's own
    /// figure wins over any table.
    /// </summary>
    /// <exception cref="ArgumentOutOfRangeException">The value is not within pH 0 to 14.</exception>
    public static PhBuffer FromBottle(double ph) => new(Wanted.Within(ph, 0, 14, ""));

    /// <summary>
    /// pH at the buffer's temperature, by straight lines between the rows of its table; flagged beyond the table's ends. A bottle's
    /// value holds at the temperature it was read for and is never flagged.
    /// </summary>
    /// <exception cref="ArgumentOutOfRangeException">The temperature does not exist.</exception>
    public Estimate PhAt(double temperatureC)
    {
        Wanted.TemperatureC(temperatureC);
        return table?.At(temperatureC) ?? Estimate.WithinRange(labelPh);
    }

    public override string ToString() => Name;
}
