using VatWatch.Calibration;
using VatWatch.Daemon.Verbs.Terminal;
using VatWatch.Pipeline.Configuration;

namespace VatWatch.Daemon.Verbs.Calibrate;

/// <summary>One run of the verb: which probe, in which vat, with which store and limits.</summary>
/// <param name="Keep">Whether one outside the limits is stored all the same.</param>
/// <param name="Json">Whether the answer is for another program.</param>
internal sealed record CalibrationJob(ConfiguredStore Store, VatPlan Vat, ProbeDefinition Probe, bool Keep, bool Json)
{
    public CalibrationLimits Limits => Vat.LimitsOf(Probe);

    /// <summary>Finds the probe.</summary>
    /// <exception cref="VerbEndedException">There is none that can be calibrated so.</exception>
    public static CalibrationJob Find(CommonAnswers answers, Quantity measures)
    {
        var all = answers.Store.Watch.Vats.SelectMany(vat => vat.Definition.Probes.Select(probe => (vat, probe))).ToList();
        var fitting = all.Where(one => one.probe.Quantity == measures && Calibrator.CanCalibrate(one.probe)).Select(one => $"'{one.probe.Id}'").ToList();
        var wanted = fitting.Count > 0 ? $"wanted one of {string.Join(", ", fitting)}" : $"no probe of this configuration measures {measures.Word()} in a form that is calibrated here";
        if (all.FirstOrDefault(one => one.probe.Id.Value == answers.Probe) is not { probe: { } probe } found)
        {
            throw new VerbEndedException(ExitCode.WrongUsage, $"--probe is '{answers.Probe}', which is no probe of this configuration; {wanted}.");
        }

        if (probe.Quantity != measures)
        {
            throw new VerbEndedException(ExitCode.WrongUsage, $"--probe is '{probe.Id}', which measures {probe.Quantity.Word()}; {wanted}.");
        }

        return Calibrator.CanCalibrate(probe)
            ? new(answers.Store, found.vat, probe, answers.Keep, answers.Json)
            : throw new VerbEndedException(ExitCode.WrongUsage, $"--probe is '{probe.Id}', which delivers finished {probe.Unit.Text}; calibrate its instrument by the instrument's own manual; {wanted}.");
    }
}

/// <summary>What was said on the command line, for both kinds of electrode.</summary>
internal sealed record CommonAnswers(ConfiguredStore Store, string Probe, bool Keep, bool Json);
