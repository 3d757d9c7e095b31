using VatWatch.Charts.Recipes;
using VatWatch.Charts.Reports;
using VatWatch.Sessions.Entries;

namespace VatWatch.Charts.Compare;

/// <summary>What differs between sessions: a row for each figure, a column for each session, and with two sessions the difference.</summary>
internal static class DifferenceTable
{
    /// <summary>The table; what reads the same in all is named below it.</summary>
    public static ReportTable Of(IReadOnlyList<SessionSummary> sessions, DisplayUnits units)
    {
        var rows = Rows(sessions, units).Where(row => row.Skip(1).Any(cell => cell.Length > 0)).ToArray();
        var differing = rows.Where(row => row.Skip(1).Take(sessions.Count).Distinct().Count() > 1).ToArray();
        var same = rows.Except(differing).Select(row => $"{row[0].Uncapitalized()} ({row[1]})").ToArray();
        string[] columns = ["", .. sessions.Select(session => session.Name), .. sessions.Count == 2 ? ["difference"] : Array.Empty<string>()];
        return new ReportTable("What differs", columns, differing) { Note = same.Length > 0 ? $"The same in all: {string.Join(", ", same)}." : null };
    }

    private static IEnumerable<string[]> Rows(IReadOnlyList<SessionSummary> sessions, DisplayUnits units)
    {
        string[] Said(string label, Func<SessionSummary, string?> say) => [label, .. sessions.Select(session => say(session) ?? ""), .. sessions.Count == 2 ? [""] : Array.Empty<string>()];

        string[] Figure(string label, Func<SessionSummary, double?> figure, int decimals, string unit)
        {
            var values = sessions.Select(figure).ToArray();
            string Write(double? value) => value is { } known ? $"{Words.Number(known, decimals)}\u00a0{unit}".TrimEnd('\u00a0') : "";
            return [label, .. values.Select(Write), .. sessions.Count == 2 ? [Write(values[1] - values[0])] : Array.Empty<string>()];
        }

        string[] Length(string label, Func<SessionSummary, double?> minutes)
        {
            var values = sessions.Select(minutes).ToArray();
            string Write(double? value) => value is { } known ? $"{(known < 0 ? "−" : "")}{Words.Unbroken(DisplayUnits.Duration(TimeSpan.FromMinutes(Math.Abs(known))))}" : "";
            return [label, .. values.Select(Write), .. sessions.Count == 2 ? [Write(values[1] - values[0])] : Array.Empty<string>()];
        }

        var degrees = units.TemperatureUnit;
        double? Degrees(double? celsius) => celsius is { } known ? units.FromCelsius(known) : null;
        var (mass, grams) = units.IsUs ? ("oz", DisplayUnits.GramsPerOunce) : ("g", 1.0);

        yield return Said("Shade", one => one.Details.Shade);
        yield return Said("How it came out", one => one.Details.Verdict?.Word());
        yield return Said("Fibre", one => one.Fibre);
        yield return Figure("Yarn, dry", one => one.Details.YarnGrams / grams, units.IsUs ? 2 : 0, mass);
        yield return Figure("Dips", one => one.Tally.Dips.Count, 0, "");
        yield return Figure("Yarn for each dip", one => one.Tally.Dips.Count > 0 ? one.Details.YarnGrams / grams / one.Tally.Dips.Count : null, units.IsUs ? 2 : 0, mass);
        yield return Length("Yarn in the liquor", one => one.Tally.InLiquor.TotalMinutes);
        yield return Length("Usual dip", one => one.Tally.UsualDip?.TotalMinutes);
        yield return Length("Usual airing between dips", one => one.Tally.UsualAiring?.TotalMinutes);
        yield return Figure("Liquor at the first dip", one => Degrees(one.FirstDipC), 1, degrees);
        yield return Figure("Liquor during dips, mean", one => Degrees(one.DippingC), 1, degrees);
        yield return Figure("Hottest liquor", one => Degrees(one.HighestC), 1, degrees);
        yield return Length("In the band", one => one.InBandMinutes);
        yield return Length("At or above the limit", one => one.AboveLimitMinutes);
        yield return Figure("pH at the start", one => one.PhFirst, 2, "");
        yield return Figure("pH at the end", one => one.PhLast, 2, "");
        yield return Figure("pH during dips, mean", one => one.DippingPh, 2, "");
        yield return Figure("ORP before the first dip", one => one.OrpFirstDip, 0, "mV");
        yield return Figure("ORP after the last dip", one => one.OrpLastDip, 0, "mV");
        yield return Figure("ORP during dips, mean", one => one.DippingOrp, 0, "mV");
        yield return Figure("Margin at the first dip", one => one.MarginFirstDip, 0, "mV");
        yield return Length("Longest recovery", one => one.LongestRecoveryMinutes);
        foreach (var material in sessions.SelectMany(one => one.Tally.Added.Keys).Distinct().Order())
        {
            var (unit, size) = material.Unit() == "g" ? (mass, grams) : units.IsUs ? ("gal", DisplayUnits.LitresPerUsGallon) : ("L", 1.0);
            yield return Figure($"Added, {material.Name()}", one => one.Tally.Added.GetValueOrDefault(material) / size, unit == "g" ? 0 : 2, unit);
        }

        yield return Length("Heater on", one => one.HeatingMinutes);
        yield return Figure("Energy, estimated", one => one.KilowattHours, 1, "kWh");
        yield return Figure("Loss coefficient", one => units.IsUs ? one.LossWattsPerKelvin / 1.8 : one.LossWattsPerKelvin, 1, units.IsUs ? "W/°F" : "W/K");
    }
}
