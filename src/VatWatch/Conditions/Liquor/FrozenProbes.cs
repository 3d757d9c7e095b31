using VatWatch.Measurements;

namespace VatWatch.Conditions.Liquor;

/// <summary>Watches every liquor probe of a vat for a frozen value. Not thread safe.</summary>
internal sealed class FrozenProbes(VatDefinition vat)
{
    private readonly (ProbeDefinition Probe, FrozenValue Value)[] _probes =
    [
        .. vat.Probes.Where(probe => probe.Quantity is Quantity.Temperature or Quantity.Ph or Quantity.Orp).Select(probe => (probe, FrozenValue.Of(probe.Quantity))),
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

    public IEnumerable<Diagnosis> Evaluate(Stamp now) => !Array.Exists(_probes, static held => held.Value.IsFrozen) ? [] : _probes.Where(held => held.Value.IsFrozen).Select(held => new Diagnosis(
        DiagnosisKind.FrozenValue,
        new($"Probe {held.Probe.Id.Value} has shown exactly {Sentence.Of(held.Probe.Quantity, held.Value.Value)} for {DisplayUnits.Duration(now.Monotonic - held.Value.Since)}; it used to move. Do not rely on it."))
    {
        Probe = held.Probe.Id,
        Since = now.Plus(held.Value.Since - now.Monotonic),
    });
}
