using VatWatch.Nights.Scenes;

namespace VatWatch.Nights.Scoring;

/// <summary>Makes nights, takes the watch through them and scores them, on two cores at most.</summary>
internal static class ScoredNights
{
    public static (Scoreboard Board, int Nights, long Readings) Of(IReadOnlyList<int> seeds)
    {
        var done = new (MadeNight Night, NightReplay Heard)?[seeds.Count];
        var (nights, readings) = (0, 0L);
        Parallel.For(0, seeds.Count, new ParallelOptions { MaxDegreeOfParallelism = 2 }, index =>
        {
            var night = NightMaker.Make(seeds[index]);
            var heard = NightReplay.Of(night);
            Interlocked.Add(ref readings, night.Rows.Count);
            Interlocked.Add(ref nights, night.Truth.Nights.Count);

            // The score needs neither the rows nor the minutes, which would fill the memory.
            done[index] = (night with { Rows = [], Truth = night.Truth with { Points = [] } }, heard);
        });

        var board = new Scoreboard();
        foreach (var one in done)
            board.Add(one!.Value.Night, one.Value.Heard);
        return (board, nights, readings);
    }
}
