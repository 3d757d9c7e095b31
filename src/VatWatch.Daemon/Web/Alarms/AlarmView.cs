using VatWatch.Alarms.Acts;
using VatWatch.Alarms;
using VatWatch.Daemon.Web.Pages;

namespace VatWatch.Daemon.Web.Alarms;

/// <summary>One alarm as a page shows it.</summary>
/// <param name="VatHref">Page of its vat; null for the daemon's own.</param>
public sealed record AlarmView(AlarmStatus Status, string VatName, string? VatHref)
{
    /// <summary>What the daemon's own alarms are filed under.</summary>
    public const string DaemonName = "VatWatch itself";

    /// <summary>Its own page.</summary>
    public string Href => $"/vats/{Uri.EscapeDataString(Status.Vat.Value)}/alarms/{Uri.EscapeDataString(Status.Alarm.Value)}";

    public string ActPath(AlarmActKind kind) => $"{Href}/{kind.Word()}";

    /// <summary>Name for the live script, the same for the same alarm.</summary>
    public string Part => $"alarm-{Status.Vat.Value}-{Status.Alarm.Value}";

    /// <summary>Class of its card: what is seen, gone or set aside looks calmer than what calls.</summary>
    public string Look => Status.State switch
    {
        AlarmState.Unacknowledged => "",
        AlarmState.Acknowledged => "seen",
        _ => "gone",
    };

    /// <summary>How a form names it.</summary>
    public string Name => $"{Status.Vat}/{Status.Alarm}";

    /// <summary>Whether its condition stands in front of the dyer; if not, it is over or set aside.</summary>
    public bool IsOn => Status.State is AlarmState.Unacknowledged or AlarmState.Acknowledged;

    /// <summary>Whether it is over and waits only for somebody to say "seen".</summary>
    public bool IsOver => Status.State is AlarmState.ReturnedUnacknowledged or AlarmState.Latched;

    /// <summary>Its sentence.</summary>
    public string Text(DisplayUnits units) => Status.Text.In(units);

    public string StateWords => Words(Status.State);

    public static AlarmView Of(AlarmStatus status, IEnumerable<VatDefinition> vats) =>
        new(status, NameOf(status.Vat, vats), status.Vat == VatId.Daemon ? null : $"/vats/{Uri.EscapeDataString(status.Vat.Value)}");

    /// <summary>Name of a vat for people, or of the daemon.</summary>
    public static string NameOf(VatId id, IEnumerable<VatDefinition> vats) =>
        id == VatId.Daemon ? DaemonName : vats.FirstOrDefault(vat => vat.Id == id)?.Name ?? id.Value;

    public static string Words(AlarmState state) => state switch
    {
        AlarmState.Normal => "back to normal",
        AlarmState.Unacknowledged => "still on, not acknowledged",
        AlarmState.Acknowledged => "still on, acknowledged",
        AlarmState.ReturnedUnacknowledged => "over, not acknowledged",
        AlarmState.Latched => "over, held until acknowledged",
        AlarmState.Shelved => "shelved for a time",
        AlarmState.OutOfService => "out of service",
        _ => "suppressed",
    };
}

/// <summary>How an alarm was set aside, in words for people.</summary>
internal static class AsideText
{
    /// <summary>A sentence with a space before it; empty for an alarm that nobody set aside.</summary>
    public static string Of(AlarmStatus status, LocalClock clock)
    {
        if (status.SetAside is not { } aside)
        {
            return "";
        }

        var until = aside.Until is { } end ? $" until {clock.At(end)}" : "";
        return $" Set aside by {aside.By ?? "VatWatch"} at {clock.At(aside.At)}{until}: {aside.Because.TrimEnd('.')}.";
    }
}
