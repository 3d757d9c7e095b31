using System.Globalization;
using System.Text.RegularExpressions;
using VatWatch.Vats.Configuration;

namespace VatWatch.Alarms;

/// <summary>Settings of every alarm of one vat, or of the daemon: key <c>alarms</c>, an object keyed by kind of alarm. Immutable.</summary>
public sealed partial record AlarmSettings
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

    /// <summary>How far two probes of one kind may differ.</summary>
    public DisagreementLimits Disagreement { get; init; } = new();

    /// <summary>Settings of one kind of alarm.</summary>
    /// <exception cref="KeyNotFoundException">There is no such kind here.</exception>
    public AlarmRuleSettings For(string kind) => _rules[kind];

    /// <summary>Whether this kind of alarm is known here.</summary>
    public bool Knows(string kind) => _rules.ContainsKey(kind);

    /// <summary>These settings with one kind's settings replaced.</summary>
    public AlarmSettings With(string kind, Func<AlarmRuleSettings, AlarmRuleSettings> change) =>
        new(new Dictionary<string, AlarmRuleSettings>(_rules) { [kind] = change(_rules[kind]) }) { ForecastWithin = ForecastWithin, ReadyBy = ReadyBy, Disagreement = Disagreement };

    /// <summary>Reads <c>vats[].alarms</c>; null for a vat without one. Faults go to the node.</summary>
    public static AlarmSettings Read(ConfigNode? node) => Read(node, AlarmKind.OfVats);

    /// <summary>Reads the top-level <c>alarms</c> of the daemon; null without one. Faults go to the node.</summary>
    public static AlarmSettings ReadDaemon(ConfigNode? node) => Read(node, AlarmKind.OfDaemon);

    private static AlarmSettings Read(ConfigNode? node, IReadOnlyList<AlarmKind> kinds)
    {
        var sections = kinds.ToDictionary(kind => kind.Name, kind => node?.OptionalSection(kind.Name), StringComparer.Ordinal);
        var settings = new AlarmSettings(kinds.ToDictionary(
            kind => kind.Name,
            kind => sections[kind.Name] is { } section ? ReadRule(section, kind) : kind.Defaults,
            StringComparer.Ordinal));
        if (sections.GetValueOrDefault(AlarmNames.OverheatForecast) is { } forecast)
        {
            settings = settings with { ForecastWithin = forecast.Duration("within", TimeSpan.FromMinutes(5), TimeSpan.FromHours(4), settings.ForecastWithin) };
        }

        if (sections.GetValueOrDefault(AlarmNames.Cold) is { } cold)
        {
            settings = settings with { ReadyBy = ReadReadyBy(cold) };
        }

        if (sections.GetValueOrDefault(AlarmNames.ProbeDisagrees) is { } disagrees)
        {
            settings = settings with { Disagreement = ReadDisagreement(disagrees) };
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
                : kind.DeadbandIsPh ? node.Number("deadband", 0, kind.DeadbandMost, defaults.Deadband)
                : 0,
            Repeat = node.Duration("repeat", OneMinute, OneDay, defaults.Repeat),
            ReAlarm = node.Has("reAlarm") ? node.Duration("reAlarm", OneMinute, OneDay) : defaults.ReAlarm,
            Latch = node.Flag("latch", defaults.Latch),
            ShelveAtMost = node.Duration("shelveAtMost", OneMinute, OneDay, defaults.ShelveAtMost),
        };
    }

    private static ReadyBy? ReadReadyBy(ConfigNode node)
    {
        const string zoneWanted = "a time zone of this machine's list, such as \"America/Chicago\"";
        var time = node.Has("readyBy") ? node.Matching("readyBy", ClockTime(), "a local time of day, such as \"08:30\"") : "";
        var length = node.Duration("readyFor", TimeSpan.FromMinutes(15), TimeSpan.FromHours(16), TimeSpan.FromHours(4));
        var zone = node.OptionalText("zone", zoneWanted) is { Length: > 0 } name ? name : TimeZoneInfo.Local.Id;
        if (!TimeZoneInfo.TryFindSystemTimeZoneById(zone, out var found))
        {
            found = TimeZoneInfo.Local;
            if (node.Has("zone"))
            {
                node.Faults.Add(node.PathOf("zone"), ConfigNode.Quote(zone), zoneWanted);
            }
        }

        return time.Length == 0 ? null : new(TimeOnly.ParseExact(time, "HH:mm", CultureInfo.InvariantCulture), length, found);
    }

    private static DisagreementLimits ReadDisagreement(ConfigNode node)
    {
        var defaults = new DisagreementLimits();
        return new(
            node.Quantity("temperature", QuantityKind.TemperatureDifference, 0.1, 20, defaults.TemperatureK),
            node.Number("ph", 0.05, 3, defaults.Ph),
            node.Quantity("orp", QuantityKind.Potential, 1, 500, defaults.OrpMillivolts));
    }

    /// <summary>Priority of a probe's own alarms: that of what the probe guards.</summary>
    internal AlarmPriority OfGuard(Quantity measures) => measures switch
    {
        Quantity.Temperature => PriorityOf(AlarmNames.Overheat),
        Quantity.Heater or Quantity.HeaterCommand => PriorityOf(AlarmNames.HeatingFault),
        Quantity.Orp => PriorityOf(AlarmNames.RedoxWeak),
        Quantity.Ph => PriorityOf(AlarmNames.AlkaliLow),
        Quantity.Level => AlarmPriority.High,
        _ => AlarmPriority.Low,
    };

    internal AlarmPriority PriorityOf(string kind) => For(kind).Priority ?? AlarmPriority.High;

    [GeneratedRegex("^([01][0-9]|2[0-3]):[0-5][0-9]\\z", RegexOptions.CultureInvariant)]
    private static partial Regex ClockTime();
}

/// <summary>How far two probes of one kind in one vat may differ before one of them must be wrong.</summary>
/// <param name="TemperatureK">Liquor temperature; 1 K by default, the mark of a vat that is not mixed.</param>
/// <param name="Ph">pH; 0.3 by default, common practice, no source.</param>
/// <param name="OrpMillivolts">ORP; 30 mV by default, within the 20 to 50 mV that platinum drifts.</param>
public sealed record DisagreementLimits(double TemperatureK = 1, double Ph = 0.3, double OrpMillivolts = 30)
{
    /// <summary>The limit for one kind; null for kinds that are not compared.</summary>
    public double? For(Quantity measures) => measures switch
    {
        Quantity.Temperature => TemperatureK,
        Quantity.Ph => Ph,
        Quantity.Orp => OrpMillivolts,
        _ => null,
    };
}
