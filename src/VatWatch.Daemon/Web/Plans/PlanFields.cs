using System.Globalization;
using VatWatch.Daemon.Dosing;
using VatWatch.Daemon.Plans;
using VatWatch.Pipeline;
using VatWatch.Plans.Warm;
using VatWatch.Vats.Configuration;

namespace VatWatch.Daemon.Web.Plans;

/// <summary>Reads what people type into the page of plans.</summary>
internal static class PlanFields
{
    /// <summary>Nobody wishes for a cooler vat, °C.</summary>
    public const double LeastTargetC = 20;

    /// <summary>Name of a figure on the page.</summary>
    public static string Label(string figure) => figure switch
    {
        "goods" => "A line of goods",
        "start" => "First dip at",
        "heater" => "Power of the heater",
        _ => figure,
    };

    /// <summary>A number of the dyer's degrees, °C; null when it is none that a vat can have.</summary>
    public static double? Temperature(string? text, DisplayUnits units) =>
        double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out var number) && (units.IsUs ? (number - 32) / 1.8 : number) is >= LeastTargetC and < 100 and var celsius ? celsius : null;

    /// <summary>The power of a heater, W: a bare number or one with its unit; null for none, and for one that cannot be meant, which is filed.</summary>
    public static double? Watts(string? text, DoseFigures figures) =>
        figures.OptionalWithin(Label("heater"), Power(text), QuantityKind.Power, 10, 100_000) is { } watts and > 0 ? watts : null;

    /// <summary>Whether a person has to say how strong the heater is.</summary>
    public static bool AsksHeater(LiveVat live) => live.Condition.Heat is { } heat && !VatHeat.Of(live.Definition, heat).HeaterIsKnown;

    /// <summary>The wish for a day in the fields of a form.</summary>
    public static DayAsked Day(Func<string, string?> field, IReadOnlyList<string> lines) =>
        new(lines, field("start") is { Length: > 0 } start ? start : null, null, Power(field("heater")), null, null, null);

    private static string? Power(string? text) =>
        text?.Trim() is not { Length: > 0 } typed ? null : double.TryParse(typed, NumberStyles.Float, CultureInfo.InvariantCulture, out _) ? $"{typed} W" : typed;

    public static IReadOnlyList<string> Lines(string? text) => (text ?? "").Split('\n', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries);

    /// <summary>Days of the week that are ticked.</summary>
    public static IReadOnlyList<DayOfWeek> Days(IEnumerable<string?> words) => [.. words.Select(word => Enum.TryParse<DayOfWeek>(word, out var day) ? day : (DayOfWeek?)null).OfType<DayOfWeek>().Distinct().Order()];

    /// <summary>What a running watch and the store tell a plan of a vat.</summary>
    public static StoredVat Known(LiveVat live, PlanKept? kept) => new(
        live.Condition.TemperatureC, live.Condition.NoTimeToBand, live.Condition.Heat is { RoomIsMeasured: true } heat ? heat.RoomC : null, kept?.Learned, kept?.Seen ?? SeenHeat.Nothing)
    {
        Dip = kept?.Dips.Length,
        Recovery = kept?.Dips.Recovery,
    };
}
