namespace VatWatch.Vats;

/// <summary>One vat as configured. Immutable; shared freely between threads.</summary>
public sealed record VatDefinition
{
    /// <summary>Name in topics, addresses and rows.</summary>
    public required VatId Id { get; init; }

    /// <summary>Name for people.</summary>
    public required string Name { get; init; }

    /// <summary>Liquor in the full vat, litres.</summary>
    public required double VolumeLitres { get; init; }

    /// <summary>What is dyed in it.</summary>
    public required Fibre Fibre { get; init; }

    /// <summary>What keeps it reduced.</summary>
    public required ReducingAgent Reducer { get; init; }

    /// <summary>Working band and limit.</summary>
    public required TemperatureBand Temperature { get; init; }

    /// <summary>Wanted pH; null when the configuration names none.</summary>
    public PhBand? Ph { get; init; }

    /// <summary>Potentials; null when the configuration names none.</summary>
    public OrpLimits? Orp { get; init; }

    /// <summary>Nameplate power of the heater, W; null when not told.</summary>
    public double? HeaterWatts { get; init; }

    /// <summary>Liquor that wet goods carry away after squeezing, L for 1 kg dry; null when not told.</summary>
    public double? CarryOverLitresPerKg { get; init; }

    /// <summary>Where water boils at this vat's height, °C.</summary>
    public double BoilingC { get; init; } = 100;

    public required IReadOnlyList<ProbeDefinition> Probes { get; init; }

    /// <summary>The longest period of its probes of one kind, and a minute at least: what is followed by the minute is followed by this.</summary>
    public TimeSpan StretchOf(Quantity measures)
    {
        var longest = TimeSpan.FromMinutes(1);
        foreach (var probe in Probes)
        {
            longest = probe.Quantity == measures ? TimeMath.Max(longest, probe.Every) : longest;
        }

        return longest;
    }
}

/// <summary>The wanted pH of the liquor, at the liquor's own temperature.</summary>
public sealed record PhBand(double Low, double High);

/// <summary>The working band of a vat and the limit above which the indigo suffers, °C.</summary>
/// <param name="LowC">Coldest liquor that dyes well.</param>
/// <param name="HighC">Warmest liquor wanted.</param>
/// <param name="LimitC">At or above this the overheat alarm stands.</param>
public sealed record TemperatureBand(double LowC, double HighC, double LimitC);

/// <summary>The name of one vat in topics, addresses and stored rows: lower-case letters, digits and hyphens, at most 40.</summary>
public readonly record struct VatId(string Value)
{
    /// <summary>The vat that an alarm about the daemon itself is filed under.</summary>
    public static VatId Daemon { get; } = new("daemon");

    public override string ToString() => Value;
}
