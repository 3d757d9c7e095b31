using VatWatch.Alarms.Rules.Probes;
using VatWatch.Conditions;
using VatWatch.Plans.Warm;

namespace VatWatch.Alarms.Rules;

/// <summary>Everything the rules of one vat look at: the newest of each probe, the newest condition, and the time. Not thread safe.</summary>
internal sealed class VatEvidence
{
    private readonly Dictionary<ProbeId, ProbeEvidence> _byId;

    /// <summary>Evidence for the probes of <paramref name="vat"/>.</summary>
    public VatEvidence(VatDefinition vat, AlarmSettings settings, Func<BusId, bool>? isBusLost = null)
    {
        IsBusLost = isBusLost ?? (_ => false);
        Vat = vat;
        Probes = [.. vat.Probes.Select(probe => new ProbeEvidence(probe, SilentAfter(probe, settings)))];
        _byId = Probes.ToDictionary(probe => probe.Definition.Id);
    }

    public VatDefinition Vat { get; }

    /// <summary>Its probes, in the order of the configuration.</summary>
    public ProbeEvidence[] Probes { get; }

    /// <summary>Whether a bus is away, so that its own alarm tells of it.</summary>
    public Func<BusId, bool> IsBusLost { get; }

    /// <summary>Newest condition; null before the first.</summary>
    public VatCondition? Condition { get; set; }

    /// <summary>The heater that a kept plan wants on; null when no plan does.</summary>
    public HeaterDue? HeaterDue { get; set; }

    /// <summary>The latest moment handed in; never goes back.</summary>
    public Stamp Now { get; private set; }

    /// <summary>When the watch went on after it had stood still; zero when it never has.</summary>
    public TimeSpan Resumed { get; set; }

    /// <summary>Whether any moment has been handed in.</summary>
    public bool HasBegun { get; private set; }

    /// <summary>The probe of that name; null for one of another vat.</summary>
    public ProbeEvidence? Find(ProbeId id) => _byId.GetValueOrDefault(id);

    /// <summary>Moves the time on. A moment that lies before the latest leaves it where it is.</summary>
    public void MoveTo(Stamp now)
    {
        if (!HasBegun)
        {
            HasBegun = true;
            Now = now;
            foreach (var probe in Probes)
            {
                probe.Begin(now.Monotonic);
            }
        }
        else if (now.Monotonic >= Now.Monotonic)
        {
            Now = now;
        }
    }

    /// <summary>Three sample periods but at least 15 s, or as set; never less than two periods, or a healthy probe would be called silent.</summary>
    private static TimeSpan SilentAfter(ProbeDefinition probe, AlarmSettings settings)
    {
        var least = TimeSpan.FromSeconds(15);
        return settings.For(ProbeSilentAlarm.Kind.Word).OnDelay is { } set
            ? TimeMath.Max(set, 2 * probe.Every)
            : TimeMath.Max(least, 3 * probe.Every);
    }
}
