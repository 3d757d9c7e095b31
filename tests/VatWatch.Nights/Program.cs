// Made-up nights of a second physics, and how the watch judges them.
//
//   dotnet run -c Release --project tests/VatWatch.Nights -- --seeds 1-300 [--kind KIND]      the table, and under it each night that falls short
//   dotnet run -c Release --project tests/VatWatch.Nights -- --plans 6001-6300                    how well plans of the third evening foretell the night
//   dotnet run -c Release --project tests/VatWatch.Nights -- --days 6001-6300                     how well the plan of a day's batches foretells its end
//   dotnet run -c Release --project tests/VatWatch.Nights -- --doses 5001-5300                   how well doses by response and the ledger do over weeks of a vat
//   dotnet run -c Release --project tests/VatWatch.Nights -- --one SEED [--out DIR]            one night: its story, its truth and its alarms; its files
//
// Seeds 1 to 2300, 4001 to 4300 and 6001 to 6900 are for tuning. 7001 to 7300 were reported once for nights, 5001 to 5300 once for doses, 8001 to 8300, 11001 to 11300 and 17001 to 17900 once each for plans: nobody looks at a single
// night of them to change the watch.
// "Could be told" leaves out the nights whose readings cannot show the trouble in time (Scenes/Tellable); they are listed with their numbers.
// The same seed gives the same night. Kinds are those of NightKind; every thirty seeds hold each kind in the same shares.
using System.Diagnostics;
using VatWatch.Nights.Scenes;
using VatWatch.Nights.Scoring;

var options = new Dictionary<string, string>(StringComparer.Ordinal);
for (var i = 0; i + 1 < args.Length; i += 2)
    options[args[i]] = args[i + 1];
if (args.Length % 2 != 0 || options.Keys.Except(["--seeds", "--kind", "--one", "--out", "--plans", "--days", "--doses"]).Any() || options.Keys.Count(key => key is "--seeds" or "--one" or "--plans" or "--days" or "--doses") != 1)
    return Refuse("wanted --seeds FROM-TO [--kind KIND], --plans FROM-TO, --days FROM-TO, --doses FROM-TO, or --one SEED [--out DIR]");

if (options.TryGetValue("--one", out var text))
    return int.TryParse(text, out var seed) && seed > 0 ? One(seed) : Refuse($"--one is \"{text}\"; wanted a seed from 1");

var span = options.First(option => option.Key is "--seeds" or "--plans" or "--days" or "--doses").Value;
var ends = span.Split('-');
if (ends.Length != 2 || !int.TryParse(ends[0], out var from) || !int.TryParse(ends[1], out var to) || from < 1 || to < from)
    return Refuse($"the seeds are \"{span}\"; wanted two seeds from 1, such as 1-300");
Action<int, int, TextWriter>? table = options.ContainsKey("--plans") ? PlanTable.WritePromises : options.ContainsKey("--days") ? PlanTable.WriteDays : options.ContainsKey("--doses") ? DoseTable.Write : null;
if (table is not null)
{
    table(from, to, Console.Out);
    return 0;
}

var seeds = Enumerable.Range(from, to - from + 1);
if (options.TryGetValue("--kind", out var word))
{
    if (!Enum.TryParse<NightKind>(word, ignoreCase: true, out var kind))
        return Refuse($"--kind is \"{word}\"; wanted one of {string.Join(", ", Enum.GetNames<NightKind>())}");
    seeds = seeds.Where(one => NightKinds.Of(one) == kind);
}

var watch = Stopwatch.StartNew();
var (board, nights, readings) = ScoredNights.Of([.. seeds]);
ScoreTable.Write(board, Console.Out);
Console.Out.WriteLine();
Console.Out.WriteLine($"{board.Figures.Count(figure => figure.IsHeld)} of {board.Figures.Count} figures held; {nights} nights, {readings} readings, {watch.Elapsed.TotalSeconds:0} s.");
return 0;

int One(int seed)
{
    var night = NightMaker.Make(seed);
    if (options.TryGetValue("--out", out var folder))
        NightFolder.Write(night, folder);
    ScoreTable.Write(night, NightReplay.Of(night), Console.Out);
    return 0;
}

int Refuse(string sentence)
{
    Console.Error.WriteLine(sentence);
    return 64;
}
