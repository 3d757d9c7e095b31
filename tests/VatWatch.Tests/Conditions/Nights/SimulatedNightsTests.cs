using System.Globalization;
using VatWatch.Conditions;
using VatWatch.Probes.Simulation;

namespace VatWatch.Tests.Conditions.Nights;

/// <summary>200 drawn nights, watched once for the whole class.</summary>
public sealed class WatchedNights
{
    private const int Count = 200;

    public WatchedNights()
    {
        var nights = new NightRecord[Count];
        Parallel.For(0, Count, i => nights[i] = NightRecord.Watch(NightPlan.Draw(1000 + i)));
        All = nights;
    }

    internal IReadOnlyList<NightRecord> All { get; }
}

/// <summary>How good forecasts and diagnoses are over 200 nights of other vats, heaters, rooms, probes and mishaps.</summary>
public sealed class SimulatedNightsTests(WatchedNights nights, ITestOutputHelper output) : IClassFixture<WatchedNights>
{
    [Fact]
    public void An_hour_before_the_limit_nine_forecasts_of_ten_are_within_ten_minutes()
    {
        var errors = Errors(60);
        output.WriteLine(Summary(60, errors));
        Assert.True(errors.Count >= 25, $"only {errors.Count} nights reach the limit");
        Assert.InRange(errors.Count(error => Math.Abs(error) <= 10) / (double)errors.Count, 0.9, 1);
    }

    [Fact]
    public void The_band_made_honest_on_the_second_physics_holds_90_percent_of_the_truth_or_more_on_the_plainer_simulator()
    {
        int inside = 0, all = 0;
        foreach (var lead in NightJudge.LeadMinutes)
        {
            var (i, n) = Covered(lead);
            output.WriteLine($"{Summary(lead, Errors(lead))}; {i} of {n} in the band");
            (inside, all) = (inside + i, all + n);
        }

        output.WriteLine($"coverage {(double)inside / all:P1} of {all}");
        Assert.InRange((double)inside / all, 0.9, 1);
    }

    [Fact]
    public void Fewer_than_one_night_in_a_hundred_has_a_false_diagnosis()
    {
        var wrong = nights.All.Select(NightJudge.FalseDiagnoses).Where(said => said.Count > 0).ToList();
        foreach (var text in wrong.SelectMany(said => said))
        {
            output.WriteLine(text);
        }

        Assert.InRange(wrong.Count / (double)nights.All.Count, 0, 0.01);
    }

    [Fact]
    public void No_stuck_heater_is_missed()
    {
        var stuck = nights.All.Where(NightJudge.IsStuckNight).ToList();
        output.WriteLine($"{stuck.Count} nights with a stuck heater");
        Assert.True(stuck.Count >= 25, $"only {stuck.Count} nights with a stuck heater");
        Assert.Empty(stuck.Where(night => !NightJudge.WasToldInTime(night)).Select(night => night.Plan.Seed));
    }

    [Fact]
    public void Most_dips_and_open_lids_are_noticed()
    {
        var dips = nights.All.SelectMany(night => night.Plan.Scenario.Acts.Where(act => act.Kind == SimulatedActKind.Dip && act.At < night.Looks[^1].At - Soon && NightJudge.DropK(night, act) > 0.5).Select(act => (night, act))).ToList();
        var noticed = dips.Count(dip => Said(dip.night, DiagnosisKind.ColdLoad, dip.act.At, Soon));
        var lids = nights.All.SelectMany(night => night.Plan.Scenario.Acts.Where(act => act.Kind == SimulatedActKind.LidOff && act.At < night.Looks[^1].At - Soon).Select(act => (night, act))).ToList();
        var open = lids.Count(lid => Said(lid.night, DiagnosisKind.LosingHeat, lid.act.At, TimeSpan.FromMinutes(120)));
        output.WriteLine($"{noticed} of {dips.Count} dips and {open} of {lids.Count} open lids noticed");
        Assert.InRange(noticed / (double)dips.Count, 0.8, 1);
        Assert.InRange(open / (double)lids.Count, 0.35, 1);
    }

    private static readonly TimeSpan Soon = TimeSpan.FromMinutes(20);

    private static bool Said(NightRecord night, DiagnosisKind kind, TimeSpan from, TimeSpan within) =>
        night.Looks.Any(look => look.At >= from && look.At <= from + within && look.Said.Diagnoses.Any(said => said.Kind == kind));

    private List<double> Errors(int lead) => [.. nights.All
        .Select(night => NightJudge.ForecastBefore(night, TimeSpan.FromMinutes(lead)))
        .Where(forecast => forecast is not null)
        .Select(forecast => forecast!.Middle.TotalMinutes - lead)];

    private (int Inside, int All) Covered(int lead)
    {
        var made = nights.All.Select(night => NightJudge.ForecastBefore(night, TimeSpan.FromMinutes(lead))).Where(forecast => forecast is not null).ToList();
        var truth = TimeSpan.FromMinutes(lead);
        return (made.Count(forecast => forecast!.Early <= truth && (forecast.Late is not { } late || truth <= late)), made.Count);
    }

    private static string Summary(int lead, List<double> errors) => string.Create(CultureInfo.InvariantCulture,
        $"{lead} min before: {errors.Count} forecasts, mean {errors.DefaultIfEmpty().Average():+0.0;-0.0} min, rms {Math.Sqrt(errors.Select(e => e * e).DefaultIfEmpty().Average()):0.0}, worst {errors.Select(Math.Abs).DefaultIfEmpty().Max():0.0}");
}
