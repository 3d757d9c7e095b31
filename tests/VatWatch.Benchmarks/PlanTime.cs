using System.Diagnostics;
using VatWatch.Plans.Day;
using VatWatch.Plans.Warm;

namespace VatWatch.Benchmarks;

/// <summary>How long the plan of a day with six loads takes, in this process, the code warm.</summary>
internal static class PlanTime
{
    private const int Rounds = 41;
    private const double BoundMilliseconds = 100;

    public static Task MeasureAsync(Table table)
    {
        var vat = new VatDefinition
        {
            Id = new("madder-lane"),
            Name = "Madder Lane vat",
            VolumeLitres = 150,
            Fibre = Fibre.Protein,
            Reducer = ReducingAgent.ThioureaDioxide,
            Temperature = new(38, 48, 49),
            HeaterWatts = 1500,
            Probes = [],
        };
        var planner = new DayPlanner(vat, VatHeat.Of(vat, null, 18), DisplayUnits.Si);
        var wish = new DayWish([new(2000, "wool", 4), new(9000, "cotton", 6), new(6000, "linen", 8), new(500, "silk", 3)], new(2026, 3, 7, 9, 0, 0, TimeSpan.Zero), 45);
        var times = Enumerable.Range(0, Rounds).Select(_ => Time(planner, wish)).Order().ToArray();
        table.Share("plan of a day of six loads, milliseconds", $"median of {Rounds}", times[Rounds / 2], BoundMilliseconds);
        return Task.CompletedTask;
    }

    private static double Time(DayPlanner planner, DayWish wish)
    {
        var clock = Stopwatch.StartNew();
        var plan = planner.Plan(wish).Plan ?? throw new InvalidOperationException("the day could not be planned");
        var elapsed = clock.Elapsed.TotalMilliseconds;
        return plan.Loads.Count == 6 ? elapsed : throw new InvalidOperationException($"{plan.Loads.Count} loads instead of six");
    }
}
