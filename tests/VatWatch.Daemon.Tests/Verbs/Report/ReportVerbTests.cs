using Microsoft.Extensions.Logging.Abstractions;
using VatWatch.Measurements;
using VatWatch.Sessions;
using VatWatch.Store;

namespace VatWatch.Daemon.Tests.Verbs.Report;

public sealed class ReportVerbTests : IDisposable
{
    private static readonly VatId Weld = new("weld-60");
    private static readonly DateTimeOffset Dawn = new(2026, 3, 1, 6, 0, 0, TimeSpan.Zero);

    private readonly Bench _bench = new();

    [Fact]
    public async Task A_session_is_reported_by_its_name_for_its_own_time_only()
    {
        await FillAsync();
        var file = Path.Combine(_bench.Data, "session.csv");
        var (code, said, error) = await _bench.RunAsync(["report", "--vat", "weld-60", "--session", "2026-03-01", "--out", file]);
        Assert.Equal((0, ""), (code, error));
        Assert.Contains("13 readings", said, StringComparison.Ordinal);
        var lines = await File.ReadAllTextAsync(file, TestContext.Current.CancellationToken);
        Assert.Contains("2026-03-01T07:30", lines, StringComparison.Ordinal);
        Assert.DoesNotContain("2026-03-01T06:30", lines, StringComparison.Ordinal);
        Assert.DoesNotContain("2026-03-01T08:30", lines, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("--session 2026-03-02", "--session is '2026-03-02'; wanted one of '2026-03-01'.")]
    [InlineData("--session yesterday", "--session is 'yesterday'; wanted one of '2026-03-01'.")]
    [InlineData("--session 2026-03-01 --from 2026-03-01", "wanted either the session or the times")]
    public async Task A_session_that_there_is_not_is_refused(string flags, string says)
    {
        await FillAsync();
        var (code, _, error) = await _bench.RunAsync(["report", "--vat", "weld-60", .. flags.Split(' '), "--out", Path.Combine(_bench.Data, "x.csv")]);
        Assert.Equal(64, code);
        Assert.Contains(says, error, StringComparison.Ordinal);
    }

    public void Dispose() => _bench.Dispose();

    private async Task FillAsync()
    {
        await using var store = WatchStore.Open(
            _bench.Data, new StoreOptions { KeepReadings = TimeSpan.FromDays(100_000) }, TimeProvider.System, NullLogger<WatchStore>.Instance);
        for (var minute = 0; minute < 180; minute += 5)
        {
            store.Enqueue(new Measurement(
                Weld, new("finished"), Quantity.Ph, new Stamp(Dawn.AddMinutes(minute), TimeSpan.FromMinutes(minute), true), 9.5, 9.5, Quality.Good, null, null));
        }

        await store.FlushAsync(TestContext.Current.CancellationToken);
        await store.WriteAsync(
            work =>
            {
                var session = SessionTable.Start(work, Weld, new DateOnly(2026, 3, 1), new Stamp(Dawn.AddHours(1), TimeSpan.FromHours(1), true), "anyone", SessionDetails.None);
                SessionTable.End(work, Weld, session.Id, Dawn.AddHours(2));
                return true;
            },
            TestContext.Current.CancellationToken);
    }
}
