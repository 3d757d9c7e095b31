namespace VatWatch.Calibration;

/// <summary>What one calibration found out about an electrode: <see cref="PhCalibration"/> or <see cref="OrpCalibration"/>. Immutable.</summary>
public abstract record ElectrodeCalibration
{
    private protected ElectrodeCalibration()
    {
    }

    /// <summary>What the electrode measures.</summary>
    public abstract Quantity Quantity { get; }

    /// <summary>Mean temperature of the solutions it was made in, °C.</summary>
    public abstract double TemperatureC { get; }

    /// <summary>The longest that the electrode took to come to rest in a solution; null when nobody timed it.</summary>
    public abstract TimeSpan? Settling { get; }

    /// <summary>The liquor's value: pH at the liquor's own temperature, or mV against the electrode's own reference.</summary>
    /// <param name="electrodeMillivolts">As delivered, mV; finite.</param>
    /// <param name="liquorTemperatureC">Temperature at the electrode, °C.</param>
    public abstract double ValueAt(double electrodeMillivolts, double liquorTemperatureC);
}

/// <summary>A calibration with its row and date; measurements name the row they were made with.</summary>
/// <param name="Id">Row in the store.</param>
/// <param name="Utc">When it was made.</param>
/// <param name="Calibration">What it found.</param>
public sealed record DatedCalibration(long Id, ProbeId Probe, DateTimeOffset Utc, ElectrodeCalibration Calibration);
