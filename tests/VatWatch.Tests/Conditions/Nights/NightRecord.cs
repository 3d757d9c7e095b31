using VatWatch.Conditions;
using VatWatch.Measurements;
using VatWatch.Probes.Simulation;

namespace VatWatch.Tests.Conditions.Nights;

/// <summary>A drawn night as it was watched: what the assessor said each minute beside what was true.</summary>
internal sealed class NightRecord
{
    private static readonly TimeSpan Length = TimeSpan.FromHours(12);
    private static readonly TimeSpan Look = TimeSpan.FromSeconds(30);
    private static readonly DateTimeOffset Evening = new(2026, 3, 1, 20, 0, 0, TimeSpan.Zero);

    private NightRecord(NightPlan plan) => Plan = plan;

    public NightPlan Plan { get; }

    /// <summary>Time and true liquor temperature, °C, at each look, with what was said.</summary>
    public List<(TimeSpan At, double LiquorC, VatCondition Said)> Looks { get; } = [];

    /// <summary>What has been learned in the end.</summary>
    public ConditionAssessor? Assessor { get; private set; }

    /// <summary>When the liquor truly reached the limit; null when it did not.</summary>
    public TimeSpan? LimitAt { get; private set; }

    public static NightRecord Watch(NightPlan plan)
    {
        var record = new NightRecord(plan);
        var model = new VatModel(plan.Scenario, plan.Litres);
        var assessor = record.Assessor = new ConditionAssessor(plan.Vat, DisplayUnits.Us);
        var beat = TimeSpan.FromSeconds(5);
        for (var now = TimeSpan.Zero; now < Length && model.TemperatureC < 62; now += beat)
        {
            model.Advance(beat);
            if (model.TemperatureC >= plan.Vat.Temperature.LimitC)
            {
                record.LimitAt ??= now;
            }

            foreach (var probe in plan.Vat.Probes.Where(probe => now.Ticks % probe.Every.Ticks == 0))
            {
                assessor.Accept(Measure(plan, model, probe, now));
            }

            if (now.Ticks % Look.Ticks == 0)
            {
                record.Looks.Add((now, model.TemperatureC, assessor.Assess(At(now))));
            }
        }

        return record;
    }

    private static Measurement Measure(NightPlan plan, VatModel model, ProbeDefinition probe, TimeSpan now)
    {
        var dropped = plan.DropOuts.Any(gap => now >= gap.From && now < gap.To);
        double? value = dropped ? null : probe.Quantity switch
        {
            Quantity.Temperature => Math.Round((model.TemperatureC + plan.Scatter * model.Noise()) / plan.Resolution) * plan.Resolution,
            Quantity.Ambient => Math.Round(model.AmbientC + 0.1 * model.Noise(), 1),
            _ => model.HeaterOn ? 1 : 0,
        };
        return new Measurement(plan.Vat.Id, probe.Id, probe.Quantity, At(now), value, value, dropped ? Quality.Missing : Quality.Good, dropped ? "no answer" : null, null);
    }

    private static Stamp At(TimeSpan monotonic) => new(Evening + monotonic, monotonic, true);
}
