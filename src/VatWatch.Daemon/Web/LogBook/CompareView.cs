using System.Globalization;
using VatWatch.Daemon.Web.Pages;
using VatWatch.Sessions;
using VatWatch.Vats;

namespace VatWatch.Daemon.Web.LogBook;

/// <summary>One session as a column of a comparison.</summary>
/// <param name="Sheet">The session.</param>
/// <param name="Means">The liquor during its dips.</param>
/// <param name="Vat">Its vat; null when the configuration has it no more.</param>
public sealed record ComparedSession(SessionSheet Sheet, SessionMeans Means, VatDefinition? Vat);

/// <summary>One line of a comparison.</summary>
/// <param name="Title">What is compared.</param>
/// <param name="A">In the first session.</param>
/// <param name="B">In the second.</param>
/// <param name="Difference">The second less the first; empty where that says nothing.</param>
public sealed record CompareRow(string Title, string A, string B, string Difference)
{
    /// <summary>Whether the two differ.</summary>
    public bool Differs => A != B;

    /// <summary>Every line.</summary>
    public static IReadOnlyList<CompareRow> Of(ComparedSession a, ComparedSession b, LocalClock clock, DisplayUnits units)
    {
        var rows = new List<CompareRow>
        {
            Words("Vat", a, b, one => one.Vat?.Name ?? one.Sheet.Session.Vat.Value),
            Words("Day", a, b, one => clock.Day(one.Sheet.Session.Started.Utc)),
            Words("Wanted shade", a, b, one => one.Sheet.Session.Details.Shade ?? FigureView.None),
            Words("Came out", a, b, one => one.Sheet.Session.VerdictWords()),
            Words("Fibre", a, b, one => one.Sheet.Session.FibreWords(one.Vat)),
            Figure("Yarn", a, b, one => one.Sheet.Session.Details.YarnGrams, units.Goods),
            Figure("Dips", a, b, one => one.Sheet.Tally.Dips.Count, dips => dips.ToString("0", CultureInfo.InvariantCulture)),
            Figure("In the liquor", a, b, one => one.Sheet.Tally.InLiquor.TotalMinutes, Minutes),
            Figure("Usual dip", a, b, one => one.Sheet.Tally.UsualDip?.TotalMinutes, Minutes),
            Figure("Between dips", a, b, one => one.Sheet.Tally.UsualAiring?.TotalMinutes, Minutes),
            Figure("Liquor during dips", a, b, one => units.FromCelsius(one.Means.TemperatureC ?? double.NaN), value => $"{Number(value, "0.0")} {units.TemperatureUnit}"),
            Figure("pH during dips", a, b, one => one.Means.Ph, value => Number(value, "0.00")),
            Figure("ORP during dips", a, b, one => one.Means.OrpMillivolts, value => $"{Number(value, "0")} mV"),
        };
        rows.AddRange(a.Sheet.Tally.Added.Keys.Union(b.Sheet.Tally.Added.Keys).Order().Select(material => Figure(
            $"Added: {material.Name()}", a, b, one => one.Sheet.Tally.Added.GetValueOrDefault(material), amount => material.Amount(amount, units))));
        return rows;
    }

    private static CompareRow Words(string title, ComparedSession a, ComparedSession b, Func<ComparedSession, string> words) => new(title, words(a), words(b), "");

    private static CompareRow Figure(string title, ComparedSession a, ComparedSession b, Func<ComparedSession, double?> figure, Func<double, string> write)
    {
        var (first, second) = (Known(figure(a)), Known(figure(b)));
        var difference = first is { } from && second is { } to ? to - from : (double?)null;
        return new(
            title,
            first is { } one ? write(one) : FigureView.None,
            second is { } other ? write(other) : FigureView.None,
            difference switch
            {
                null => "",
                _ when write(first!.Value) == write(second!.Value) => "same",
                > 0 => $"{write(difference.Value)} more",
                _ => $"{write(-difference.Value)} less",
            });
    }

    private static double? Known(double? value) => value is { } number && double.IsFinite(number) ? number : null;

    private static string Minutes(double minutes) => DisplayUnits.Duration(TimeSpan.FromMinutes(minutes));

    private static string Number(double value, string form) => value.ToString(form, CultureInfo.InvariantCulture);
}
