using System.Collections.Concurrent;

namespace VatWatch.Probes.Simulation;

/// <summary>One simulated vat. Its model advances to the moment of each sample. Used by one loop at a time, except for <see cref="Do"/>.</summary>
internal sealed class SimulatedVatBus(BusId id, SimulationScenario scenario, WatchClock clock) : IProbeBus
{
    /// <summary>Rounds at the wall's pace: the first ones take long, because the program is still being compiled.</summary>
    private const int FirstRounds = 2;

    /// <summary>Acts that wait for the next look; more than a person does between two.</summary>
    private const int MostActs = 32;

    private readonly ConcurrentQueue<SimulatedAct> _acts = new();
    private VatModel? _model;
    private ProbeDefinition? _pacer;
    private TimeSpan _advancedTo;
    private int _rounds;

    public BusId Id => id;

    public string Device => "simulated vat";

    public ValueTask OpenAsync(CancellationToken cancel) => ValueTask.CompletedTask;

    public ValueTask CloseAsync() => ValueTask.CompletedTask;

    public ValueTask DisposeAsync() => ValueTask.CompletedTask;

    /// <summary>Hangs a probe in the vat; the first one made on the bus decides its size.</summary>
    public void Hang(ProbeDefinition probe, VatDefinition vat)
    {
        _model ??= new VatModel(scenario, vat.VolumeLitres);
        _pacer = _pacer is null || probe.Every < _pacer.Every ? probe : _pacer;
    }

    /// <summary>Does something to the vat before it is looked at again, whatever the time in the act; past a bound it is left undone. Thread safe.</summary>
    public void Do(SimulatedAct act)
    {
        if (_acts.Count < MostActs)
        {
            _acts.Enqueue(act);
        }
    }

    /// <summary>The vat as it is at this moment of its clock, for <paramref name="probe"/> to look at.</summary>
    public VatModel Now(ProbeDefinition probe)
    {
        var model = _model ?? throw new InvalidOperationException("a probe is made on the bus before the vat is looked at");
        var now = clock.Now().Monotonic;
        if (probe == _pacer && ++_rounds > FirstRounds)
        {
            LetTimePass();
        }

        if (now > _advancedTo)
        {
            model.Advance(now - _advancedTo);
            _advancedTo = now;
        }

        while (_acts.TryDequeue(out var act))
        {
            model.Do(act);
        }

        return model;
    }

    /// <summary>A fast clock goes on only for a period and a half of the probe that is asked most often: then it waits to be asked again.</summary>
    private void LetTimePass()
    {
        if (_pacer is { } pacer)
        {
            (clock.Provider as ScaledTimeProvider)?.Renew(pacer.Every * 1.5);
        }
    }
}
