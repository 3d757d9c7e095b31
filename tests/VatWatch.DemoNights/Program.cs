using System.Globalization;
using VatWatch.Testing.Nights;

// Lets the three nights of the demonstration happen and writes them into a folder: NIGHT.csv for `vatwatch replay`, and a store for `vatwatch report`.
// The same program gives the same nights.
if (args is not [var folder])
{
    Console.Error.WriteLine("wanted one argument: the folder to write to");
    return 64;
}

Directory.CreateDirectory(folder);
var nights = new List<(DemoNight, DemoNightRun)>();
foreach (var night in DemoNight.All)
{
    var run = await DemoNightRun.OfAsync(night);
    nights.Add((night, run));
    using var log = new StreamWriter(Path.Combine(folder, $"{night.Name}.csv")) { NewLine = "\n" };
    log.WriteLine("time,probe,value");
    foreach (var one in run.Measurements)
    {
        log.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{one.Stamp.Utc:yyyy-MM-ddTHH:mm:ssZ},{one.Probe},{one.Raw:R}"));
    }
}

foreach (var ((night, run), session) in nights.Zip(await DemoNightStore.WriteAsync(folder, nights)))
{
    Console.Out.WriteLine($"{night.Name}: session {session}, {run.Measurements.Count} readings, {run.Changes.Count} alarm changes");
}

return 0;
