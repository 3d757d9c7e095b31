using VatWatch.Charts.Figures;
using VatWatch.Charts.Traces;
using VatWatch.Sessions;

namespace VatWatch.Charts.Compare;

/// <summary>One session in figures, SI. What is not known is null.</summary>
internal sealed record SessionSummary
{
    /// <summary>What it is called among the others.</summary>
    public required string Name { get; init; }

    /// <summary>What the dyer said of it.</summary>
    public SessionDetails Details { get; init; } = SessionDetails.None;

    /// <summary>Dips and sums of what was added.</summary>
    public required SessionTally Tally { get; init; }

    /// <summary>Liquor at the first dip, °C.</summary>
    public double? FirstDipC { get; init; }

    /// <summary>Hottest liquor, °C.</summary>
    public double? HighestC { get; init; }

    /// <summary>Time in the band of temperature, min.</summary>
    public double? InBandMinutes { get; init; }

    /// <summary>Time at or above the limit, min.</summary>
    public double? AboveLimitMinutes { get; init; }

    /// <summary>First good pH.</summary>
    public double? PhFirst { get; init; }

    /// <summary>Last good pH.</summary>
    public double? PhLast { get; init; }

    /// <summary>ORP before the first dip, mV.</summary>
    public double? OrpFirstDip { get; init; }

    /// <summary>ORP after the last dip, mV.</summary>
    public double? OrpLastDip { get; init; }

    /// <summary>Margin of reduction at the first dip, mV.</summary>
    public double? MarginFirstDip { get; init; }

    /// <summary>Longest recovery, min.</summary>
    public double? LongestRecoveryMinutes { get; init; }

    public string? Fibre { get; init; }

    /// <summary>Mean liquor while yarn was in it, °C.</summary>
    public double? DippingC { get; init; }

    /// <summary>Mean pH while yarn was in the liquor.</summary>
    public double? DippingPh { get; init; }

    /// <summary>Mean ORP while yarn was in the liquor, mV.</summary>
    public double? DippingOrp { get; init; }

    /// <summary>Heater on, min.</summary>
    public double? HeatingMinutes { get; init; }

    /// <summary>Energy, kWh.</summary>
    public double? KilowattHours { get; init; }

    /// <summary>Loss coefficient, W/K.</summary>
    public double? LossWattsPerKelvin { get; init; }

    public static SessionSummary Of(string name, VatRecord record)
    {
        var traces = ProbeTrace.Of(record);
        ProbeTrace? Chief(Quantity measures) => traces.FirstOrDefault(trace => trace.Quantity == measures && Extremes.Of(trace) is not null);

        var dips = DipAccounts.Of(record, traces);
        var (first, last) = (dips.Count > 0 ? dips[0] : null, dips.Count > 0 ? dips[^1] : null);
        var (liquor, ph) = (Chief(Quantity.Temperature), Chief(Quantity.Ph));
        var steps = liquor is null ? [] : GoodStep.Of(liquor);
        var band = record.Vat.Temperature;
        var heating = HeatingAccount.Of(record, traces);
        return new SessionSummary
        {
            Name = name,
            Details = record.Session?.Details ?? SessionDetails.None,
            Tally = SessionTally.Of(record.Entries),
            FirstDipC = first?.AtIn?.TemperatureC,
            HighestC = liquor is null ? null : Extremes.Of(liquor)!.Highest,
            InBandMinutes = liquor is null ? null : TimeInBand.Of(steps, band.LowC, band.HighC).Inside.TotalMinutes,
            AboveLimitMinutes = liquor is null ? null : TimeAbove.Of(steps, band.LimitC).Time.TotalMinutes,
            PhFirst = ph is null ? null : Extremes.Of(ph)!.First,
            PhLast = ph is null ? null : Extremes.Of(ph)!.Last,
            OrpFirstDip = first?.OrpBefore,
            OrpLastDip = last?.OrpAfter,
            MarginFirstDip = first?.AtIn?.Margin?.Millivolts,
            LongestRecoveryMinutes = dips.Max(dip => dip.Recovery?.Time)?.TotalMinutes,
            Fibre = (record.Session?.Details.Fibre ?? record.Vat.Fibre) == Vats.Fibre.Protein ? "protein" : "cellulose",
            DippingC = During(dips, liquor),
            DippingPh = During(dips, ph),
            DippingOrp = During(dips, Chief(Quantity.Orp)),
            HeatingMinutes = heating?.On.TotalMinutes,
            KilowattHours = heating?.KilowattHours,
            LossWattsPerKelvin = HeatingAccount.LastHeat(record)?.Loss.WattsPerKelvin,
        };
    }

    private static double? During(IReadOnlyList<DipAccount> dips, ProbeTrace? trace) => trace?.Readings
        .Where(reading => reading.GoodValue is not null && dips.Any(dip => reading.Stamp.Utc >= dip.Dip.In.Utc && reading.Stamp.Utc < dip.Dip.Out?.Utc))
        .Average(reading => reading.GoodValue);
}
