using VatWatch.Charts.Figures;
using VatWatch.Charts.Recipes;
using VatWatch.Charts.Traces;
using VatWatch.Sessions;
using VatWatch.Sessions.Entries;

namespace VatWatch.Charts.Reports.Content;

/// <summary>The figures of heating and of the dyer's work: energy, losses, dips, yarn and what was added.</summary>
internal static class WorkFigures
{
    /// <summary>Heating time when only judged, energy with its basis, loss coefficient.</summary>
    public static IEnumerable<FigureRow> Heat(VatRecord record, IReadOnlyList<ProbeTrace> traces)
    {
        if (HeatingAccount.Of(record, traces) is { } account)
        {
            if (!account.IsRead)
                yield return new FigureRow("Heater on, judged from the warming", Words.Unbroken(DisplayUnits.Duration(account.On)));
            if (account is { KilowattHours: { } energy, Watts: { } watts })
                yield return new FigureRow("Energy, estimated", $"about {Words.Number(energy, 1)}\u00a0kWh, at {Basis(account, watts)}");
        }

        if (HeatingAccount.LastHeat(record) is not { } heat)
            yield break;
        var (loss, sigma, unit) = record.Units.IsUs ? (heat.Loss.WattsPerKelvin / 1.8, heat.Loss.Sigma / 1.8, "W/°F") : (heat.Loss.WattsPerKelvin, heat.Loss.Sigma, "W/K");
        yield return new FigureRow("Loss coefficient", $"{Words.Number(loss, 1)} ± {Words.Number(sigma, 1)}\u00a0{unit}, evaporation counted");
    }

    public static IEnumerable<FigureRow> Planned(VatRecord record, TimeZoneInfo zone) =>
        record.Planned?.Rows(record.Units, zone).Select(row => new FigureRow($"{row.What}, as planned", $"{Words.Unbroken(row.Came)}; foretold {Words.Unbroken(row.Foretold)}")) ?? [];

    private static string Basis(HeatingAccount account, double watts) => account.IsNameplate
        ? $"the {Words.Number(watts, 0)}\u00a0W that the configuration gives"
        : $"the {Words.Number(watts, 0)}\u00a0W learned from the warming";

    /// <summary>Dips, yarn, sums of what was added, what the dyer says.</summary>
    public static IEnumerable<FigureRow> Work(VatRecord record)
    {
        var tally = SessionTally.Of(record.Entries);
        if (record.Session?.Details is { } details)
        {
            if (details.Shade is { Length: > 0 } shade)
                yield return new FigureRow("Shade", shade);
            if (details.Verdict is { } verdict)
                yield return new FigureRow("How it came out", verdict.Word());
        }

        if (tally.Dips.Count > 0)
        {
            var inLiquor = TimeSpan.FromTicks(tally.Dips.Sum(dip => (dip.Length ?? TimeSpan.Zero).Ticks));
            yield return new FigureRow("Dips", $"{tally.Dips.Count}, yarn in the liquor for {Words.Unbroken(DisplayUnits.Duration(inLiquor))}");
        }

        if (record.Session?.Details.YarnGrams is { } grams)
        {
            var each = tally.Dips.Count > 0 ? $"; {Words.Unbroken(record.Units.Goods(grams / tally.Dips.Count))} for each of {tally.Dips.Count} {(tally.Dips.Count == 1 ? "dip" : "dips")}" : "";
            yield return new FigureRow("Yarn, dry", $"{Words.Unbroken(record.Units.Goods(grams))}{each}");
        }

        foreach (var (material, amount) in tally.Added)
            yield return new FigureRow($"Added, {material.Name()}", Words.Unbroken(material.Amount(amount, record.Units)));
    }
}
