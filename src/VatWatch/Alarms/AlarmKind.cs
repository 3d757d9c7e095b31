using VatWatch.Vats.Configuration;

namespace VatWatch.Alarms;

/// <summary>One kind of alarm as the configuration knows it: its word, its defaults and what its deadband is written in.</summary>
/// <param name="Name">Word in the configuration.</param>
/// <param name="Defaults">Settings where the configuration is silent.</param>
/// <param name="DeadbandIn">Unit of the deadband; null for none, or for a bare number (<paramref name="DeadbandIsPh"/>).</param>
/// <param name="DeadbandMost">Widest deadband, in the canonical unit.</param>
/// <param name="DeadbandIsPh">The deadband is a bare difference of pH.</param>
internal sealed record AlarmKind(
    string Name,
    AlarmRuleSettings Defaults,
    QuantityKind? DeadbandIn = null,
    double DeadbandMost = 0,
    bool DeadbandIsPh = false)
{
    /// <summary>
    /// Alarms of a vat. Deadbands and delays start from the table of alarm practice for temperature and composition, narrowed by judgement
    /// for a vat (temperature 0.5 K and 120 s, pH 0.1, ORP 10 mV, a composition past its limit for 15 min); no standard gives them.
    /// </summary>
    public static IReadOnlyList<AlarmKind> OfVats { get; } =
    [
        new(AlarmNames.Overheat, Guard(AlarmPriority.Critical, "0:00:10", "0:02:00", "0:05:00") with { Deadband = 0.5, ReAlarm = Minutes(30) }, QuantityKind.TemperatureDifference, 5),
        new(AlarmNames.OverheatForecast, Guard(AlarmPriority.High, "0:01:00", "0:05:00", "0:10:00")),
        new(AlarmNames.HeatingFault, Guard(AlarmPriority.Medium, "0:01:00", "0:05:00", "0:15:00")),
        new(AlarmNames.Cold, Process(AlarmPriority.Medium, "0:01:00", "0:02:00", "0:30:00", 0.5), QuantityKind.TemperatureDifference, 5),
        new(AlarmNames.RedoxRising, Process(AlarmPriority.High, "0:02:00", "0:15:00", "0:15:00", 5), QuantityKind.PotentialRate, 100),
        new(AlarmNames.RedoxWeak, Process(AlarmPriority.High, "0:15:00", "0:05:00", "0:30:00", 10), QuantityKind.Potential, 100),
        new(AlarmNames.Oxidised, Process(AlarmPriority.High, "0:15:00", "0:05:00", "0:30:00", 10), QuantityKind.Potential, 100),
        new(AlarmNames.AlkaliLow, Process(AlarmPriority.Medium, "0:15:00", "0:05:00", "1:00:00", 0.1), DeadbandMost: 1, DeadbandIsPh: true),
        new(AlarmNames.AlkaliHigh, Process(AlarmPriority.Medium, "0:15:00", "0:05:00", "1:00:00", 0.1), DeadbandMost: 1, DeadbandIsPh: true),
        new(AlarmNames.ProbeSilent, Guard(null, null, "0:00:30", "0:10:00")),
        new(AlarmNames.ProbeFault, Guard(null, "0:00:10", "0:01:00", "0:10:00")),
        new(AlarmNames.ProbeDisagrees, Process(null, "0:10:00", "0:05:00", "1:00:00", 0)),
    ];

    /// <summary>Alarms about the daemon itself.</summary>
    public static IReadOnlyList<AlarmKind> OfDaemon { get; } =
    [
        new(AlarmNames.StoreFault, Process(AlarmPriority.High, "0:00:00", "0:01:00", "0:30:00", 0)),
        new(AlarmNames.BrokerLost, Process(AlarmPriority.High, "0:00:30", "0:01:00", "0:30:00", 0)),
        new(AlarmNames.ClockUntrusted, Process(AlarmPriority.High, "0:05:00", "0:01:00", "6:00:00", 0)),
        new(AlarmNames.StageRestarted, Process(AlarmPriority.High, "0:00:00", "0:05:00", "1:00:00", 0)),
        new(AlarmNames.BusLost, Process(AlarmPriority.High, "0:00:10", "0:01:00", "0:10:00", 0)),
        new(AlarmNames.ServerBehind, Process(AlarmPriority.Medium, "0:00:00", "0:01:00", "6:00:00", 0)),
        new(AlarmNames.ContactUnreachable, Process(AlarmPriority.High, "0:00:00", "0:01:00", "0:30:00", 0)),
        new(AlarmNames.WatchSilent, Process(AlarmPriority.Critical, "0:00:00", "0:00:30", "0:10:00", 0)),
        new(AlarmNames.CalibrationDue, Process(AlarmPriority.Low, "0:00:00", "0:00:00", "1.00:00:00", 0)),
    ];

    private static AlarmRuleSettings Process(AlarmPriority? priority, string? onDelay, string offDelay, string repeat, double deadband) => new()
    {
        Priority = priority,
        OnDelay = onDelay is null ? null : TimeSpan.Parse(onDelay, null),
        OffDelay = TimeSpan.Parse(offDelay, null),
        Repeat = TimeSpan.Parse(repeat, null),
        Deadband = deadband,
    };

    /// <summary>What guards people and fire: not to be shelved for long.</summary>
    private static AlarmRuleSettings Guard(AlarmPriority? priority, string? onDelay, string offDelay, string repeat) =>
        Process(priority, onDelay, offDelay, repeat, 0) with { ShelveAtMost = Minutes(30) };

    private static TimeSpan Minutes(int minutes) => TimeSpan.FromMinutes(minutes);
}
