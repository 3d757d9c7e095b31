using System.Globalization;
using VatWatch.Conditions;
using VatWatch.Pipeline;
using VatWatch.Plans.Warm;

namespace VatWatch.Daemon.Web.Plans;

/// <summary>Reads what people type into the page of plans.</summary>
internal static class PlanFields
{
    /// <summary>Name of a figure on the page.</summary>
    public static string Label(string figure) => figure switch
    {
        "goods" => "A line of goods",
        "start" => "First dip at",
        _ => figure,
    };

    /// <summary>A time of day; null when it is none.</summary>
    public static TimeOnly? Time(string? text) =>
        TimeOnly.TryParseExact(text, ["HH:mm", "H:mm"], CultureInfo.InvariantCulture, DateTimeStyles.None, out var time) ? time : null;

    /// <summary>A number of the dyer's degrees, °C; null when it is none that a vat can have.</summary>
    public static double? Temperature(string? text, DisplayUnits units) =>
        double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out var number) && (units.IsUs ? (number - 32) / 1.8 : number) is >= 20 and < 100 and var celsius ? celsius : null;

    /// <summary>Lines that are not empty.</summary>
    public static IReadOnlyList<string> Lines(string? text) => (text ?? "").Split('\n', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries);

    /// <summary>Days of the week that are ticked.</summary>
    public static IReadOnlyList<DayOfWeek> Days(IEnumerable<string?> words) => [.. words.Select(word => Enum.TryParse<DayOfWeek>(word, out var day) ? day : (DayOfWeek?)null).OfType<DayOfWeek>().Distinct().Order()];

    /// <summary>What a running watch and the store tell a plan of a vat.</summary>
    public static StoredVat Known(LiveVat live, PlanKept? kept) => new(
        live.Condition.TemperatureC, live.Condition.NoTimeToBand, live.Condition.Heat is { RoomIsMeasured: true } heat ? heat.RoomC : null, kept?.Learned, kept?.Seen ?? [])
    {
        Recovery = Recovery(live.Condition),
    };

    /// <summary>Middle time that ORP took to come back after the dips of this session; null without one.</summary>
    private static TimeSpan? Recovery(VatCondition condition)
    {
        var back = condition.Recoveries.Select(one => one.Time).OfType<TimeSpan>().Order().ToList();
        return back.Count > 0 ? back[back.Count / 2] : null;
    }
}
