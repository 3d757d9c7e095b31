using VatWatch.Measurements;

namespace VatWatch.Conditions.Liquor;

/// <summary>Watches every liquor probe of a vat for a frozen value. Not thread safe.</summary>
internal sealed class FrozenProbes(VatDefinition vat)
{
    private readonly Watched[] _probes =
    [
        .. vat.Probes.Where(probe => probe.Quantity is Quantity.Temperature or Quantity.Ph or Quantity.Orp).Select(probe => new Watched(probe, FrozenValue.Of(probe.Quantity))),
    ];

    /// <summary>Takes in a measurement.</summary>
    public void Accept(Measurement measurement)
    {
        // A frozen value is suspect by then, for being frozen.
        if (measurement is not { Quality: Quality.Good or Quality.Suspect, Value: { } value })
        {
            return;
        }

        foreach (var (probe, held) in _probes)
        {
            if (probe.Id == measurement.Probe)
            {
                held.Add(measurement.Stamp.Monotonic, value);
            }
        }
    }

    /// <summary>Whether this probe's value is frozen.</summary>
    public bool Holds(ProbeId id)
    {
        foreach (var (probe, held) in _probes)
        {
            if (probe.Id == id)
            {
                return held.IsFrozen;
            }
        }

        return false;
    }

    /// <summary>Adds what is frozen now.</summary>
    public void Evaluate(Stamp now, List<Diagnosis> diagnoses)
    {
        foreach (var (probe, held) in _probes)
        {
            if (held.IsFrozen)
            {
                var sentence = new Sentence($"Probe {probe.Id.Value} has shown exactly {Sentence.Of(probe.Quantity, held.Value)} for {DisplayUnits.Duration(now.Monotonic - held.Since)}; it used to move. Do not rely on it.");
                diagnoses.Add(Diagnosis.Made(DiagnosisKind.FrozenValue, now, held.Since, sentence) with { Probe = probe.Id });
            }
        }
    }

    private sealed record Watched(ProbeDefinition Probe, FrozenValue Value);
}
