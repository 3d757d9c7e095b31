namespace VatWatch.Probes.Serial;

/// <summary>What is allowed in a configuration and yet can mislead: answers in lines of text that could be taken one for the other.</summary>
public static class AnswerRemarks
{
    /// <summary>A sentence for each probe that would take any number, and for each two probes on one port that ask different questions and would take the same line.</summary>
    public static IEnumerable<string> Of(IEnumerable<(ProbeDefinition Probe, ProbePlan Plan)> probes)
    {
        var asked = probes.Where(each => each.Plan.Asked is not null).ToList();
        var loose = from each in asked
                    where each.Plan.Asked!.Pattern.IsLoose
                    select $"Probe '{each.Probe.Id}' on bus '{each.Probe.Bus}' takes the number of any line that has one, also of a status or a count; "
                        + "wanted a pattern with what stands around the number (\"^T=(?<value>[-+0-9.]+)C$\"), or one that says that nothing does (\"^(?<value>[-+0-9.]+)$\")";
        var alike = from first in asked
                    from second in asked.Skip(asked.IndexOf(first) + 1)
                    where first.Probe.Bus == second.Probe.Bus
                    let line = first.Plan.Asked!.AlsoTakenBy(second.Plan.Asked!)
                    where line is not null
                    select $"Probes '{first.Probe.Id}' and '{second.Probe.Id}' on bus '{first.Probe.Bus}' ask different questions and both take the line '{line}', so an answer that comes late could be the other's; "
                        + "wanted patterns with what stands around the number (\"^T=(?<value>[-+0-9.]+)C$\"), one question that gives all values in one line, or a checksum";
        return loose.Concat(alike);
    }
}
