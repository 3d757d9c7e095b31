using VatWatch.Conditions;
using VatWatch.Measurements;
using VatWatch.Testing;

namespace VatWatch.Tests.Conditions;

/// <summary>A 40 gal vat of one mixed mass whose heater, losses, probes and chemistry a test sets as it goes; every probe answers each 10 s.</summary>
internal sealed class ScriptedVat
{
    private const double CapacityJPerK = 650_000;
    private static readonly TimeSpan Beat = TimeSpan.FromSeconds(10);
    private readonly Random _random = new(12);

    public ScriptedVat(VatDefinition? vat = null, DisplayUnits? units = null)
    {
        var usual = SampleVats.MadderLane();
        Vat = vat ?? usual with
        {
            Probes =
            [
                .. usual.Probes,
                SampleVats.Probe("madder-lane", "room", Quantity.Ambient, 10),
                SampleVats.Probe("madder-lane", "heater", Quantity.Heater, 10),
                SampleVats.Probe("madder-lane", "level", Quantity.Level, 10),
            ],
        };
        Assessor = new ConditionAssessor(Vat, units ?? DisplayUnits.Si);
    }

    public VatDefinition Vat { get; }

    public ConditionAssessor Assessor { get; }

    public double LiquorC { get; set; } = 20;

    public double RoomC { get; set; } = 18;

    public double PowerW { get; set; } = 1480;

    public double LossWPerK { get; set; } = 4;

    /// <summary>Whether current flows.</summary>
    public bool HeaterOn { get; set; }

    /// <summary>What the heater probe says; follows <see cref="HeaterOn"/> when null.</summary>
    public bool? HeaterSays { get; set; }

    /// <summary>Power that the heater probe shows while it is on, as a share of the rating.</summary>
    public double DrawnShare { get; set; } = 1;

    /// <summary>What the heater was told, for a vat with the probe "command".</summary>
    public bool CommandedOn { get; set; }

    /// <summary>What the liquor probe shows instead of the liquor, from the minutes since this was set; null for the liquor.</summary>
    public Func<double, double>? ProbeShows { get; set; }

    public double LevelPercent { get; set; } = 98;

    public double Ph { get; set; } = 10;

    public double OrpMillivolts { get; set; } = -710;

    public double Scatter { get; set; } = 0.03;

    public TimeSpan Now { get; private set; } = TimeSpan.FromMinutes(5);

    public Stamp Stamp => new(new DateTimeOffset(2026, 3, 1, 20, 0, 0, TimeSpan.Zero) + Now, Now, true);

    /// <summary>Lets minutes pass in which nobody reads a probe.</summary>
    public void Sleep(double minutes) => Now += TimeSpan.FromMinutes(minutes);

    /// <summary>Lets minutes pass; each beat calls <paramref name="beat"/> with the minutes since the start.</summary>
    public VatCondition Run(double minutes, Action<double>? beat = null)
    {
        var condition = Assessor.Assess(Stamp);
        var start = Now;
        for (var end = Now + TimeSpan.FromMinutes(minutes); Now < end; Now += Beat)
        {
            beat?.Invoke((Now - start).TotalMinutes);
            var watts = (HeaterOn ? PowerW : 0) - LossWPerK * (LiquorC - RoomC);
            LiquorC += watts * Beat.TotalSeconds / CapacityJPerK;
            var shown = ProbeShows?.Invoke((Now - start).TotalMinutes) ?? LiquorC;
            Tell("liquor", Quantity.Temperature, Math.Round(shown + Noise(Scatter), 2));
            Tell("liquor-ph", Quantity.Ph, Math.Round(Ph + Noise(0.01), 2));
            Tell("liquor-orp", Quantity.Orp, Math.Round(OrpMillivolts + Noise(1), 1));
            Tell("room", Quantity.Ambient, Math.Round(RoomC + Noise(0.05), 2));
            Tell("heater", Quantity.Heater, HeaterSays ?? HeaterOn ? DrawnShare : 0);
            Tell("command", Quantity.HeaterCommand, CommandedOn ? 1 : 0);
            Tell("level", Quantity.Level, Math.Round(LevelPercent + Noise(0.1), 1));
            condition = Assessor.Assess(Stamp);
        }

        return condition;
    }

    private double Noise(double deviation) => MathNet.Numerics.Distributions.Normal.Sample(_random, 0, 1) * deviation;

    private void Tell(string id, Quantity measures, double value)
    {
        if (Vat.Probes.Any(probe => probe.Id.Value == id))
        {
            Assessor.Accept(new Measurement(Vat.Id, new ProbeId(id), measures, Stamp, value, value, Quality.Good, null, null));
        }
    }
}
