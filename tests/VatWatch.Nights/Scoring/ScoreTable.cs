using VatWatch.Nights.Scenes;

namespace VatWatch.Nights.Scoring;

/// <summary>Prints scores for a terminal.</summary>
internal static class ScoreTable
{
    private const int ToldOfOneFigure = 40;

    public static void Write(Scoreboard board, TextWriter output)
    {
        output.WriteLine($"{"figure",-52}  {"wanted",-16}  {"reached",-10}  {"n",5}  {"could be told",13}");
        foreach (var figure in board.Figures)
        {
            var reached = figure.Reached is { } value ? figure.Say(value) : "-";
            output.WriteLine($"{figure.Name,-52}  {figure.Wanted,-16}  {reached,-10}  {figure.Cases.Count,5}  {figure.CouldBeTold.Count(),13}  {(figure.IsHeld ? "" : "falls short")}".TrimEnd());
        }

        foreach (var figure in board.Figures)
        {
            foreach (var kind in figure.Cases.Where(one => one.Untellable is not null).GroupBy(one => one.Kind))
            {
                output.WriteLine();
                output.WriteLine($"{figure.Name}: could not be told by the readings of {kind.Count()} nights, {kind.Key}");
                foreach (var one in kind)
                    output.WriteLine($"  {one.Seed,5}  {one.Untellable}; {one.FallsShort ?? "told all the same"}");
            }

            var seen = figure.CouldBeTold.Where(one => one.FallsShort is not null).ToList();
            if (figure.IsHeld || seen.Count == 0)
                continue;
            output.WriteLine();
            output.WriteLine(figure.Name);
            foreach (var one in seen.Take(ToldOfOneFigure))
                output.WriteLine($"  {one.Seed,5}  {one.Kind}: {one.FallsShort}");
            if (seen.Count > ToldOfOneFigure)
                output.WriteLine($"  and {seen.Count - ToldOfOneFigure} more");
        }
    }

    public static void Write(MadeNight night, NightReplay heard, TextWriter output)
    {
        var truth = night.Truth;
        output.WriteLine($"seed {night.Seed}, {night.Kind}: {night.Story}");
        foreach (var span in truth.Nights)
            output.WriteLine($"  night {span.Index + 1}{(span.Healthy ? ", healthy" : "")}: {Time(span.From)} to {Time(span.To)}");
        output.WriteLine($"  heating since {Time(truth.HeatingSince)}, fault {Time(truth.Fault)}, knowable {Time(truth.Knowable)}");
        output.WriteLine($"  reading at the limit {Time(truth.ReadingCrosses)}, liquor there {Time(truth.LiquorCrosses)}, leaves the band {Time(truth.LeavesBand)}, rise begins {Time(truth.RiseBegins)}");
        foreach (var entry in night.Entries)
            output.WriteLine($"  {Time(entry.Time)}  entry {entry.Entry} {entry.Value}".TrimEnd());
        foreach (var one in heard.Raised)
            output.WriteLine($"  {Time(one.Time)}  {one.Kind}: {one.Text}");
        foreach (var (time, kind) in heard.Diagnoses)
            output.WriteLine($"  {Time(time)}  seems {kind}");
    }

    private static string Time(DateTimeOffset? time) => time is { } known ? $"{known:yyyy-MM-ddTHH:mm:ssZ}" : "never";
}
