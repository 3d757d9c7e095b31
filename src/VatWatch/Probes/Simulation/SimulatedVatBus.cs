using VatWatch.Time;
using VatWatch.Vats;

namespace VatWatch.Probes.Simulation;

/// <summary>One simulated vat. Its model advances to the moment of each sample. Used by one loop at a time.</summary>
internal sealed class SimulatedVatBus(BusId id, SimulationScenario scenario, WatchClock clock) : IProbeBus
{
    private VatModel? _model;
    private TimeSpan _allowance = TimeSpan.MaxValue;
    private TimeSpan _advancedTo;

    public BusId Id => id;

    public string Device => "simulated vat";

    public ValueTask OpenAsync(CancellationToken cancel)
    {
        (clock.Provider as ScaledTimeProvider)?.Renew(_allowance);
        return ValueTask.CompletedTask;
    }

    public ValueTask CloseAsync() => ValueTask.CompletedTask;

    public ValueTask DisposeAsync() => ValueTask.CompletedTask;

    /// <summary>Hangs a probe in the vat; the first one made on the bus decides its size.</summary>
    public void Hang(ProbeDefinition probe, VatDefinition vat)
    {
        _model ??= new VatModel(scenario, vat.VolumeLitres);
        var twice = probe.Every * 2;
        _allowance = twice < _allowance ? twice : _allowance;
    }

    /// <summary>The vat as it is at this moment of its clock.</summary>
    public VatModel Now()
    {
        var model = _model ?? throw new InvalidOperationException("a probe is made on the bus before the vat is looked at");
        var now = clock.Now().Monotonic;
        (clock.Provider as ScaledTimeProvider)?.Renew(_allowance);
        if (now > _advancedTo)
        {
            model.Advance(now - _advancedTo);
            _advancedTo = now;
        }

        return model;
    }
}
