using VatWatch.Nights.Scenes;
using VatWatch.Sessions.Entries;

namespace VatWatch.Nights.Scoring;

/// <summary>Prints how well doses by response and the ledger do, on two cores at most; single vats only of seeds that are for tuning.</summary>
internal static class DoseTable
{
    /// <summary>The dose that is judged comes after so many.</summary>
    public const int Taught = 3;

    private const int LastToTune = 300;
    private const double WidestShare = 0.25;

    /// <summary>Writes it.</summary>
    public static void Write(int from, int to, TextWriter output)
    {
        var scores = new DoseScore[to - from + 1];
        Parallel.For(0, scores.Length, new ParallelOptions { MaxDegreeOfParallelism = 2 }, i => scores[i] = DoseScore.Of(from + i, Taught));
        foreach (var (name, material) in ((string, Material)[])[("soda ash", Material.SodaAsh), ("reducing agent", Material.ReducingAgent)])
        {
            for (var before = 0; before <= Taught; before++)
                Write($"{name}, after {before} logged", [.. scores.SelectMany(score => score.Doses.Select(dose => (score, dose))).Where(one => one.dose.Material == material && one.dose.Before == before)], before == Taught, output);
        }

        output.WriteLine("ledger, evenings of every seventh day of vats logged from the first day: truth within the range of 80 %");
        foreach (var line in scores.SelectMany(score => score.Lines).GroupBy(line => line.Name))
            output.WriteLine($"  {line.Key,-12} {100.0 * line.Count(one => one.Holds) / line.Count():0} % of {line.Count()}; median of truth / told {Middle(line.Select(one => one.Truth / one.Told.Value)):0.00}, of half-widths {100 * Middle(line.Select(one => (one.Told.High - one.Told.Low) / 2 / one.Told.Value)):0} %");
    }

    private static void Write(string name, IReadOnlyList<(DoseScore Score, AskedDose Dose)> asked, bool isJudged, TextWriter output)
    {
        var told = asked.Where(one => one.Dose.Dose.Grams is > 0).ToList();
        if (told.Count == 0)
            return;
        var wide = told.Select(one => Half(one.Dose)).Order().ToList();
        output.WriteLine($"{name}: {told.Count} told, {asked.Count - told.Count} refused; rests on {told.Average(one => one.Dose.Dose.PastDoses):0.0}");
        output.WriteLine($"  half-width: median {100 * wide[wide.Count / 2]:0} %, widest {100 * wide[^1]:0} %; within ±{100 * WidestShare:0} %: {100.0 * wide.Count(one => one <= WidestShare) / wide.Count:0.0} %{(isJudged ? "   wanted all" : "")}");
        output.WriteLine($"  truth within the range: {100.0 * told.Count(one => IsWithin(one.Dose)) / told.Count:0.0} %{(isJudged ? "   wanted 72 to 88 %" : "")}; median of truth / told {Middle(told.Select(one => one.Dose.NeedGrams / one.Dose.Dose.Grams!.Value)):0.00}");
        if (isJudged)
        {
            foreach (var (score, dose) in told.Where(one => one.Score.Seed <= LastToTune && (Half(one.Dose) > WidestShare || Math.Abs(Math.Log(one.Dose.NeedGrams / one.Dose.Dose.Grams!.Value)) > 0.3)))
                output.WriteLine($"    {score.Seed,5}: told {dose.Dose.Grams:0} g ({dose.Dose.LowGrams:0} to {dose.Dose.HighGrams:0}, {dose.Dose.PastDoses} past), took {dose.NeedGrams:0}: {score.Story}");
        }
    }

    /// <summary>Half the width of a range as a share of the dose.</summary>
    public static double Half(AskedDose dose) => (dose.Dose.HighGrams!.Value - dose.Dose.LowGrams!.Value) / 2 / dose.Dose.Grams!.Value;

    /// <summary>Whether the truth lay in the range.</summary>
    public static bool IsWithin(AskedDose dose) => dose.NeedGrams >= dose.Dose.LowGrams && dose.NeedGrams <= dose.Dose.HighGrams;

    private static double Middle(IEnumerable<double> values)
    {
        var ordered = values.Order().ToList();
        return ordered[ordered.Count / 2];
    }
}
