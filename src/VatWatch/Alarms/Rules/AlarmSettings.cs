using VatWatch.Alarms.Rules.Alkali;
using VatWatch.Alarms.Rules.Heat;
using VatWatch.Alarms.Rules.Probes;
using VatWatch.Alarms.Rules.Reduction;
using VatWatch.Vats.Configuration;

namespace VatWatch.Alarms.Rules;

/// <summary>Settings of every alarm of one vat, or of the daemon: key <c>alarms</c>, an object keyed by kind of alarm. Immutable.</summary>
public sealed record AlarmSettings
{
    private static readonly TimeSpan OneMinute = TimeSpan.FromMinutes(1);
    private static readonly TimeSpan OneDay = TimeSpan.FromHours(24);

    private readonly Dictionary<string, AlarmRuleSettings> _rules;

    private AlarmSettings(Dictionary<string, AlarmRuleSettings> rules) => _rules = rules;

    /// <summary>What holds where the configuration is silent.</summary>
    public static AlarmSettings Default => Read(null);

    /// <summary>How near the forecast overheating must be; 5 min to 4 h, 45 min by default.</summary>
    public TimeSpan ForecastWithin { get; init; } = TimeSpan.FromMinutes(45);

    /// <summary>When the vat should be warm; null when the configuration does not say, and <c>cold</c> is then off.</summary>
    public ReadyBy? ReadyBy { get; init; }

    /// <summary>Time zone of the site, for times of day in sentences.</summary>
    public TimeZoneInfo Zone { get; init; } = TimeZoneInfo.Local;

    /// <summary>How far two probes of one kind may differ.</summary>
    public DisagreementLimits Disagreement { get; init; } = new();

    /// <summary>Settings of one kind of alarm.</summary>
    /// <exception cref="KeyNotFoundException">There is no such kind here.</exception>
    public AlarmRuleSettings For(string kind) => _rules[kind];

    /// <summary>Whether this kind of alarm is known here.</summary>
    public bool Knows(string kind) => _rules.ContainsKey(kind);

    /// <summary>These settings with one kind's settings replaced.</summary>
    public AlarmSettings With(string kind, Func<AlarmRuleSettings, AlarmRuleSettings> change) =>
        new(new Dictionary<string, AlarmRuleSettings>(_rules) { [kind] = change(_rules[kind]) }) { ForecastWithin = ForecastWithin, ReadyBy = ReadyBy, Zone = Zone, Disagreement = Disagreement };

    /// <summary>Reads <c>vats[].alarms</c>; null for a vat without one. Faults go to the node.</summary>
    public static AlarmSettings Read(ConfigNode? node) => Read(node, AlarmKinds.OfVats);

    /// <summary>Reads the top-level <c>alarms</c> of the daemon; null without one. Faults go to the node.</summary>
    public static AlarmSettings ReadDaemon(ConfigNode? node) => Read(node, AlarmKinds.OfDaemon);

    private static AlarmSettings Read(ConfigNode? node, IReadOnlyList<AlarmKind> kinds)
    {
        var sections = kinds.ToDictionary(kind => kind.Word, kind => node?.OptionalSection(kind.Word), StringComparer.Ordinal);
        var settings = new AlarmSettings(kinds.ToDictionary(
            kind => kind.Word,
            kind => sections[kind.Word] is { } section ? ReadRule(section, kind) : kind.Defaults,
            StringComparer.Ordinal));
        if (sections.GetValueOrDefault(OverheatForecastAlarm.Kind.Word) is { } forecast)
        {
            settings = settings with { ForecastWithin = forecast.Duration("within", TimeSpan.FromMinutes(5), TimeSpan.FromHours(4), settings.ForecastWithin) };
        }

        if (sections.GetValueOrDefault(ColdAlarm.Kind.Word) is { } cold)
        {
            settings = settings with { ReadyBy = ReadyBy.Read(cold) };
        }

        if (sections.GetValueOrDefault(ProbeDisagreesAlarm.Kind.Word) is { } disagrees)
        {
            settings = settings with { Disagreement = DisagreementLimits.Read(disagrees) };
        }

        foreach (var section in sections.Values)
        {
            section?.Done();
        }

        node?.Done();
        return settings;
    }

    private static AlarmRuleSettings ReadRule(ConfigNode node, AlarmKind kind)
    {
        var defaults = kind.Defaults;
        return defaults with
        {
            Enabled = node.Flag("enabled", defaults.Enabled),
            Priority = node.Has("priority") ? node.Choice("priority", EnumWord.All<AlarmPriority>(), AlarmPriority.Low) : defaults.Priority,
            OnDelay = node.Has("onDelay") ? node.Duration("onDelay", TimeSpan.Zero, OneDay) : defaults.OnDelay,
            OffDelay = node.Duration("offDelay", TimeSpan.Zero, OneDay, defaults.OffDelay),
            Deadband = kind.DeadbandIn is { } unit ? node.Quantity("deadband", unit, 0, kind.DeadbandMost, defaults.Deadband)
                : kind.DeadbandMost > 0 ? node.Number("deadband", 0, kind.DeadbandMost, defaults.Deadband)
                : 0,
            Repeat = node.Duration("repeat", OneMinute, OneDay, defaults.Repeat),
            ReAlarm = node.Has("reAlarm") ? node.Duration("reAlarm", OneMinute, OneDay) : defaults.ReAlarm,
            Latch = node.Flag("latch", defaults.Latch),
            ShelveAtMost = node.Duration("shelveAtMost", OneMinute, OneDay, defaults.ShelveAtMost),
        };
    }

    /// <summary>Priority of a probe's own alarms: that of what the probe guards.</summary>
    internal AlarmPriority OfGuard(Quantity measures) => measures switch
    {
        Quantity.Temperature => PriorityOf(OverheatAlarm.Kind.Word),
        Quantity.Heater or Quantity.HeaterCommand => PriorityOf(HeatingFaultAlarm.Kind.Word),
        Quantity.Orp => PriorityOf(RedoxWeakAlarm.Kind.Word),
        Quantity.Ph => PriorityOf(AlkaliLowAlarm.Kind.Word),
        Quantity.Level => AlarmPriority.High,
        _ => AlarmPriority.Low,
    };

    internal AlarmPriority PriorityOf(string kind) => For(kind).Priority ?? AlarmPriority.High;
}
