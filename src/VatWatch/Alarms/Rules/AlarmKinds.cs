using VatWatch.Alarms.Daemon;
using VatWatch.Alarms.Rules.Alkali;
using VatWatch.Alarms.Rules.Heat;
using VatWatch.Alarms.Rules.Probes;
using VatWatch.Alarms.Rules.Reduction;

namespace VatWatch.Alarms.Rules;

/// <summary>Every kind of alarm there is, weightiest first. An alarm is one class; this list is all that knows of it.</summary>
internal static class AlarmKinds
{
    public static IReadOnlyList<AlarmKind> OfVats { get; } =
    [
        OverheatAlarm.Kind, OverheatForecastAlarm.Kind, WarmingFaultAlarm.Kind, HeatingFaultAlarm.Kind, HeaterDueAlarm.Kind,
        RedoxRisingAlarm.Kind, OxidisedAlarm.Kind, RedoxWeakAlarm.Kind, AlkaliLowAlarm.Kind, AlkaliHighAlarm.Kind, ReadyLateAlarm.Kind, ColdAlarm.Kind,
        ProbeSilentAlarm.Kind, ProbeFaultAlarm.Kind, ProbeDisagreesAlarm.Kind,
    ];

    /// <summary>Alarms about the daemon itself.</summary>
    public static IReadOnlyList<AlarmKind> OfDaemon { get; } =
    [
        WatchSilentAlarm.Kind, StoreFaultAlarm.Kind, BusLostAlarm.Kind, StageRestartedAlarm.Kind, BrokerLostAlarm.Kind, PagesLostAlarm.Kind,
        ContactUnreachableAlarm.Kind, ClockUntrustedAlarm.Kind, ServerBehindAlarm.Kind, CalibrationDueAlarm.Kind,
    ];
}
