using VatWatch.Vats.Configuration;

namespace VatWatch.Alarms.Rules;

/// <summary>One kind of alarm: its word and what holds where the configuration is silent. The alarm's own class makes it; <see cref="AlarmKinds"/> lists all.</summary>
/// <param name="Word">Word in the configuration, on topics and in files.</param>
/// <param name="Defaults">
/// Settings where the configuration is silent. Deadbands and delays start from the table of alarm practice for temperature and composition, narrowed
/// by judgement for a vat (temperature 0.5 K and 120 s, pH 0.1, ORP 10 mV, a composition past its limit for 15 min); no standard gives them.
/// </param>
internal sealed record AlarmKind(string Word, AlarmRuleSettings Defaults)
{
    /// <summary>What the deadband is written in; null for none, or for the bare number of a pH.</summary>
    public QuantityKind? DeadbandIn { get; init; }

    /// <summary>Widest deadband, in the canonical unit; 0 for an alarm without one.</summary>
    public double DeadbandMost { get; init; }

    /// <summary>The rules of this kind that a vat's configuration calls for; none for an alarm of the daemon.</summary>
    public Func<RuleContext, IEnumerable<IAlarmRule>> RulesFor { get; init; } = _ => [];

    /// <summary>Why it exists, for an alarm of the daemon; those of a vat have it with their rules.</summary>
    public AlarmRationale? Rationale { get; init; }
}

/// <summary>Why an alarm exists and what to do about it: the record of rationalisation that IEC 62682 asks for, in the dyer's words.</summary>
/// <param name="Cause">What usually brings it about.</param>
/// <param name="Consequence">What follows when nobody acts.</param>
/// <param name="Action">What to do, in one or two plain sentences.</param>
/// <param name="TimeToRespond">How long there is, in words.</param>
public sealed record AlarmRationale(string Cause, string Consequence, string Action, string TimeToRespond);
