using VatWatch.Alarms.Rules;

namespace VatWatch.Alarms.Daemon;

/// <summary>An alarm about the daemon itself: somebody else judges, this only carries the verdict and the sentence.</summary>
internal sealed class DaemonRule(AlarmName name, AlarmRuleSettings settings, AlarmRationale rationale) : IAlarmRule
{
    private AlarmSignal _signal;
    private AlarmPriority? _guards;
    private Sentence? _sentence;

    public AlarmName Name => name;

    public AlarmRuleSettings Settings => settings;

    public AlarmRationale Rationale => rationale;

    /// <summary>Takes the newest verdict.</summary>
    public void Take(DaemonSignal signal)
    {
        _signal = signal.Active switch { true => AlarmSignal.Met, false => AlarmSignal.Clear, null => AlarmSignal.Unknown };
        _sentence = signal.Sentence;
        _guards = signal.Guards ?? _guards;
    }

    /// <summary>The verdict as a finding.</summary>
    public AlarmFinding Evaluate() => new(_signal, settings.Priority ?? _guards ?? AlarmPriority.High) { Note = _sentence };

    public AlarmFinding Evaluate(VatEvidence evidence) => Evaluate();

    public Sentence Tell(in AlarmFinding finding, bool stands) => finding.Note ?? new($"Nothing is known yet about {name.Value}.");
}
