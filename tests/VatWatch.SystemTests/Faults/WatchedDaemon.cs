using System.Globalization;
using System.Net;
using VatWatch.Testing;

namespace VatWatch.SystemTests.Faults;

/// <summary>The built daemon on a studio's configuration, looked at from outside: its metrics, its page, what it takes, what it kept.</summary>
internal sealed class WatchedDaemon : IAsyncDisposable
{
    public static readonly TimeSpan Patience = TimeSpan.FromSeconds(60);

    private readonly Studio _studio;
    private readonly HttpClient _visitor;

    private WatchedDaemon(Studio studio, VatWatchProcess process)
    {
        _studio = studio;
        Process = process;
        _visitor = new HttpClient { BaseAddress = new(studio.Url), Timeout = TimeSpan.FromSeconds(30) };
    }

    public VatWatchProcess Process { get; }

    /// <summary>Starts it and waits until every stage runs.</summary>
    public static async Task<WatchedDaemon> StartAsync(Studio studio, IReadOnlyDictionary<string, string>? environment = null)
    {
        var process = VatWatchProcess.StartOther(VatWatchProcess.Binary, environment ?? new Dictionary<string, string>(), "run", "--config", studio.Config);
        var daemon = new WatchedDaemon(studio, process);
        try
        {
            await Eventually.TrueAsync(
                () => process.HasExited ? throw new InvalidOperationException($"vatwatch ended: {process.Output}{process.Errors}") : process.Output.Contains("Watching", StringComparison.Ordinal),
                "the daemon watches", Patience);
            await daemon.EventuallyAsync(async () => (await daemon._visitor.GetAsync("/health/live", TestContext.Current.CancellationToken)).StatusCode == HttpStatusCode.OK, "its pages answer");
        }
        catch
        {
            await daemon.DisposeAsync();
            throw;
        }

        return daemon;
    }

    public ProcessLook Evaluate() => ProcessLook.Of(Process.Id);

    public Task<string> GetAsync(string path) => _visitor.GetStringAsync(path, TestContext.Current.CancellationToken);

    /// <summary>The sum of every sample of a metric whose line holds <paramref name="label"/>.</summary>
    public async Task<double> MetricAsync(string name, string label = "")
    {
        var lines = (await GetAsync("/metrics")).Split('\n');
        return lines.Where(line => (line.StartsWith(name + "{", StringComparison.Ordinal) || line.StartsWith(name + " ", StringComparison.Ordinal)) && line.Contains(label, StringComparison.Ordinal))
            .Sum(line => double.Parse(line[(line.LastIndexOf(' ') + 1)..], CultureInfo.InvariantCulture));
    }

    public async Task EventuallyAsync(Func<Task<bool>> condition, string what, TimeSpan? limit = null)
    {
        var until = Environment.TickCount64 + (limit ?? Patience).TotalMilliseconds;
        while (!await HoldsAsync(condition))
        {
            if (Environment.TickCount64 > until)
            {
                throw new TimeoutException($"did not happen: {what}\n{Process.Output}");
            }

            await Task.Delay(20, TestContext.Current.CancellationToken);
        }
    }

    /// <summary>Stops it as a service manager does, and gives what one vat's log then holds: time, probe, value, quality, in order.</summary>
    public async Task<IReadOnlyList<KeptReading>> StopAndReadAsync(string vat)
    {
        Assert.Equal(0, await Process.StopAsync(Patience));
        Assert.DoesNotContain("   at ", Process.Output + Process.Errors, StringComparison.Ordinal);
        return await ReadAsync(vat);
    }

    public async Task<IReadOnlyList<KeptReading>> ReadAsync(string vat)
    {
        var file = Path.Combine(_studio.Folder, $"{vat}.csv");
        var (code, output, errors) = await VatWatchProcess.RunAsync(Patience, "report", "--config", _studio.Config, "--vat", vat, "--out", file);
        Assert.True(code == 0, output + errors);
        return [.. KeptReading.Read(File.ReadLines(file))];
    }

    public async ValueTask DisposeAsync()
    {
        _visitor.Dispose();
        await Process.DisposeAsync();
    }

    private static async Task<bool> HoldsAsync(Func<Task<bool>> condition)
    {
        try
        {
            return await condition();
        }
        catch (HttpRequestException)
        {
            return false;
        }
    }
}
