namespace VatWatch.Nights.Scoring;

/// <summary>Prints how well plans foretold warm-ups, on two cores at most; the single nights only of seeds that are for tuning.</summary>
internal static class PlanTable
{
    private const double NearMinutes = 15;
    private const double FarMinutes = 30;
    private const double NearShare = 0.15;

    /// <summary>Promises of switch-on times.</summary>
    public static void WritePromises(int from, int to, TextWriter output)
    {
        Write("promise of the evening", from, to, PlanScore.OfEvening, output);
        Write("promise when the heater is due", from, to, PlanScore.OfReminder, output);
    }

    /// <summary>Ends of days.</summary>
    public static void WriteDays(int from, int to, TextWriter output)
    {
        var days = new DayScore?[to - from + 1];
        Parallel.For(0, days.Length, new ParallelOptions { MaxDegreeOfParallelism = 2 }, i => days[i] = DayScore.Of(from + i));
        var told = days.OfType<DayScore>().OrderBy(day => day.Error).ToList();
        foreach (var day in told.Where(day => IsToTune(day.Seed) && Math.Abs(day.Error) > NearShare))
            output.WriteLine($"  {day.Seed,5}  {100 * day.Error,5:0} %: foretold {day.PlannedMinutes:0} min, took {day.TookMinutes:0}: {day.Story}");
        output.WriteLine($"day's batches: {told.Count} plans, {days.Length - told.Count} refused");
        output.WriteLine($"  ends within {100 * NearShare:0} %           {100.0 * told.Count(day => Math.Abs(day.Error) <= NearShare) / told.Count:0.0} %   wanted all");
        output.WriteLine($"  mean, mean distance         {100 * told.Average(day => day.Error):0.0} %, {100 * told.Average(day => Math.Abs(day.Error)):0.0} %");
    }

    private static void Write(string name, int from, int to, Func<int, PlanScore?> play, TextWriter output)
    {
        var scores = new PlanScore?[to - from + 1];
        Parallel.For(0, scores.Length, new ParallelOptions { MaxDegreeOfParallelism = 2 }, i => scores[i] = play(from + i));
        var told = scores.OfType<PlanScore>().OrderBy(score => score.LateMinutes).ToList();
        foreach (var one in told.Where(score => IsToTune(score.Seed) && Math.Abs(score.LateMinutes) > NearMinutes))
            output.WriteLine($"  {one.Seed,5}  {one.LateMinutes,6:0} min of {one.PlannedMinutes,4:0} ({one.EarlyMinutes:0} to {one.LateEdgeMinutes:0}), from {one.FromC:0.0} foretold, {one.WasC:0.0} seen: {one.Story}");
        output.WriteLine($"{name}: {told.Count} plans, {scores.Length - told.Count} refused");
        output.WriteLine($"  within {NearMinutes} min of the wish   {Share(told, score => Math.Abs(score.LateMinutes) <= NearMinutes)}   wanted 90 %");
        output.WriteLine($"  later than {FarMinutes} min            {told.Count(score => score.LateMinutes > FarMinutes)}   wanted 0");
        output.WriteLine($"  within its own band         {Share(told, score => score.IsInItsRange)}   wanted about 90 %");
        output.WriteLine($"  mean                        {told.Average(score => score.LateMinutes):0.0} min");
    }

    private static bool IsToTune(int seed) => seed is <= 2300 or (>= 6001 and <= 6900);

    private static string Share(List<PlanScore> told, Func<PlanScore, bool> isSo) => $"{100.0 * told.Count(isSo) / told.Count:0.0} %";
}
