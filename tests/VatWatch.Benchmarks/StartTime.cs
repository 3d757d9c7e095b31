using System.Diagnostics;
using System.Globalization;
using VatWatch.Store;
using VatWatch.Testing;

namespace VatWatch.Benchmarks;

/// <summary>From the start of the process to the first reading on the disk, against an empty host's first answer.</summary>
internal static class StartTime
{
    private const int Rounds = 7;
    private const double Allowance = 300;
    private const double LongestHelp = 150;
    private const double LongestCheck = 250;
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(30);
    private static readonly TimeSpan Look = TimeSpan.FromMilliseconds(3);

    public static async Task MeasureAsync(Table table)
    {
        var (empty, daemon) = (new List<double>(), new List<double>());
        for (var round = 0; round < Rounds; round++)
        {
            empty.Add(await FirstAnswerAsync());
            daemon.Add(await FirstStoredAsync());
        }

        var (floor, measured) = (Median(empty), Median(daemon));
        table.Share(
            "start to first stored reading, twice the empty host's first answer and 300 ms",
            string.Create(CultureInfo.InvariantCulture, $"{measured:0} ms against 2 x {floor:0} + 300 ms"),
            measured / (2 * floor + Allowance),
            1);
        MeasureVerbs(table);
    }

    private static void MeasureVerbs(Table table)
    {
        using var studio = new BenchStudio();
        studio.WriteSix();
        var (empty, help, check) = (new List<double>(), new List<double>(), new List<double>());
        for (var round = 0; round < Rounds; round++)
        {
            empty.Add(ChildProcess.TimeToEnd(Programs.EmptyHost, "nothing"));
            help.Add(ChildProcess.TimeToEnd(Programs.Daemon, "--help"));
            check.Add(ChildProcess.TimeToEnd(Programs.Daemon, "check", "--config", studio.Config));
        }

        Add("vatwatch --help", help, LongestHelp);
        Add("vatwatch check", check, LongestCheck);

        void Add(string verb, List<double> times, double longest) => table.Share(
            $"{verb}, of {longest:0} ms",
            string.Create(CultureInfo.InvariantCulture, $"{Median(times):0} ms; an empty program {Median(empty):0} ms"),
            Median(times) / longest,
            1);
    }

    /// <summary>Milliseconds until a store in <paramref name="folder"/> holds a reading.</summary>
    public static async Task<double> UntilStoredAsync(string folder, long began)
    {
        while (Stopwatch.GetElapsedTime(began) < Patience)
        {
            // The write-ahead log comes when the database is made; a look before that would be in its maker's way.
            if (File.Exists(Path.Combine(folder, "vatwatch.db-wal")) && Holds(folder))
            {
                return Stopwatch.GetElapsedTime(began).TotalMilliseconds;
            }

            await Task.Delay(Look);
        }

        throw new TimeoutException($"no reading was stored within {Patience.TotalSeconds:0} s");
    }

    private static bool Holds(string folder)
    {
        try
        {
            using var reader = StoreReader.OpenFolder(folder);
            return reader.LastUtc() is not null;
        }
        catch (StoreUnavailableException)
        {
            return false;
        }
    }

    private static async Task<double> FirstStoredAsync()
    {
        using var studio = new BenchStudio();
        studio.WriteSix();
        var program = Programs.Daemon;
        var began = Stopwatch.GetTimestamp();
        using var daemon = ChildProcess.Start(program, "run", "--config", studio.Config);
        return await UntilStoredAsync(studio.Data, began);
    }

    private static async Task<double> FirstAnswerAsync()
    {
        var url = string.Create(CultureInfo.InvariantCulture, $"http://127.0.0.1:{FreePort.Next()}");
        using var client = new HttpClient();
        var program = Programs.EmptyHost;
        var began = Stopwatch.GetTimestamp();
        using var empty = ChildProcess.Start(program, "--urls", url);
        while (Stopwatch.GetElapsedTime(began) < Patience)
        {
            try
            {
                using var answer = await client.GetAsync(new Uri(url));
                return Stopwatch.GetElapsedTime(began).TotalMilliseconds;
            }
            catch (HttpRequestException)
            {
                await Task.Delay(Look);
            }
        }

        throw new TimeoutException($"the empty host has not answered within {Patience.TotalSeconds:0} s");
    }

    private static double Median(List<double> times) => times.Order().ElementAt(times.Count / 2);
}
