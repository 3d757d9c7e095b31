namespace VatWatch.Alarms.Rules;

/// <summary>One alarm of one vat: when its condition is met and how it is told. Keeps only what its deadband needs.</summary>
internal interface IAlarmRule
{
    /// <summary>Name within the vat.</summary>
    AlarmName Name { get; }

    /// <summary>Delays and reminders.</summary>
    AlarmRuleSettings Settings { get; }

    /// <summary>Cause, consequence, action, time.</summary>
    AlarmRationale Rationale { get; }

    /// <summary>Whether a measurement of that probe can change the finding at once; otherwise it waits for the next condition.</summary>
    bool DependsOn(ProbeEvidence probe) => false;

    /// <summary>What the evidence says now.</summary>
    AlarmFinding Evaluate(VatEvidence evidence);

    /// <summary>Puts <paramref name="finding"/> into words; <paramref name="stands"/> says whether the alarm's condition stands, delays included.</summary>
    Sentence Tell(in AlarmFinding finding, bool stands);
}

/// <summary>What every rule of one vat is made from.</summary>
internal sealed record RuleContext(VatDefinition Vat, AlarmSettings Settings);
