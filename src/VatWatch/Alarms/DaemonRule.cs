namespace VatWatch.Alarms;

/// <summary>An alarm about the daemon itself: somebody else judges, this only carries the verdict and the sentence.</summary>
internal sealed class DaemonRule(AlarmName name, AlarmRuleSettings settings, AlarmRationale rationale) : IAlarmRule
{
    private AlarmSignal _signal;
    private string? _sentence;

    /// <inheritdoc/>
    public AlarmName Name => name;

    /// <inheritdoc/>
    public AlarmRuleSettings Settings => settings;

    /// <inheritdoc/>
    public AlarmRationale Rationale => rationale;

    /// <summary>Takes the newest verdict.</summary>
    public void Take(DaemonSignal signal)
    {
        _signal = signal.Active switch { true => AlarmSignal.Met, false => AlarmSignal.Clear, null => AlarmSignal.Unknown };
        _sentence = signal.Sentence;
    }

    /// <summary>The verdict as a finding.</summary>
    public AlarmFinding Look() => new(_signal, settings.Priority ?? AlarmPriority.High) { Note = _sentence };

    /// <inheritdoc/>
    public bool DependsOn(ProbeEvidence probe) => false;

    /// <inheritdoc/>
    public AlarmFinding Look(VatEvidence evidence) => Look();

    /// <inheritdoc/>
    public AlarmTelling Tell(in AlarmFinding finding, bool stands) => new(finding.Note ?? $"Nothing is known yet about {name}.");
}
