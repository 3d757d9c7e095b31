using VatWatch.Alarms;
using VatWatch.Vats;

namespace VatWatch.Daemon.Web.Pages;

/// <summary>One alarm as a page shows it.</summary>
/// <param name="Status">The alarm.</param>
/// <param name="VatName">Name of its vat for people.</param>
/// <param name="VatHref">Page of its vat; null for the daemon's own.</param>
public sealed record AlarmView(AlarmStatus Status, string VatName, string? VatHref)
{
    /// <summary>What the daemon's own alarms are filed under.</summary>
    public const string DaemonName = "VatWatch itself";

    /// <summary>Where its acknowledgement is posted.</summary>
    public string AcknowledgePath => $"/vats/{Uri.EscapeDataString(Status.Vat.Value)}/alarms/{Uri.EscapeDataString(Status.Alarm.Value)}/acknowledge";

    /// <summary>Name for the live script, the same for the same alarm.</summary>
    public string Part => $"alarm-{Status.Vat.Value}-{Status.Alarm.Value}";

    /// <summary>State in words.</summary>
    public string StateWords => Words(Status.State);

    /// <summary>Finds the vat of an alarm.</summary>
    public static AlarmView Of(AlarmStatus status, IEnumerable<VatDefinition> vats) =>
        status.Vat == VatId.Daemon
            ? new(status, DaemonName, null)
            : new(status, vats.FirstOrDefault(vat => vat.Id == status.Vat)?.Name ?? status.Vat.Value, $"/vats/{Uri.EscapeDataString(status.Vat.Value)}");

    /// <summary>A state in words for people.</summary>
    public static string Words(AlarmState state) => state switch
    {
        AlarmState.Normal => "back to normal",
        AlarmState.Unacknowledged => "standing, nobody has acknowledged it",
        AlarmState.Acknowledged => "standing, acknowledged",
        AlarmState.ReturnedUnacknowledged => "gone again, nobody has acknowledged it",
        AlarmState.Latched => "gone again, held until acknowledged",
        AlarmState.Shelved => "shelved for a time",
        AlarmState.OutOfService => "out of service",
        _ => "suppressed",
    };
}
