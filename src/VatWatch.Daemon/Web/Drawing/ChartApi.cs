using System.Globalization;
using VatWatch.Daemon.Web.Api;
using VatWatch.Daemon.Web.Pages;
using VatWatch.Pipeline;

namespace VatWatch.Daemon.Web.Drawing;

/// <summary>What the drawing in the browser asks for: <c>/api/vats/{vat}/chart</c>.</summary>
internal sealed class ChartApi(StoreQueries store, ILiveFeed feed, SiteFacts site, TimeProvider time) : IDisposable
{
    /// <summary>Columns when the request names none.</summary>
    public const int DefaultColumns = 600;

    /// <summary>More columns than a large screen has.</summary>
    public const int MostColumns = 4000;

    private const string Wanted =
        "hours=1 to 168, range=session, or from and to (ISO 8601, 10 s to 366 days apart); width is the number of columns, 10 to 4000";

    private static readonly TimeSpan LongestRead = TimeSpan.FromSeconds(10);

    // Two at a time: a person who drags quickly must not keep every reader of the store busy.
    private readonly SemaphoreSlim _readers = new(2);

    public static void Map(IEndpointRouteBuilder api) =>
        api.MapGet("/vats/{vat}/chart", (string vat, HttpContext context, [Service] ChartApi chart) => chart.AnswerAsync(vat, context))
            .WithName("getChart").WithSummary($"Recorded columns (first, last, least, greatest), marks and forecast of a vat. Query: {Wanted}.")
            .Produces<ChartReply>().ProducesProblem(400).ProducesProblem(404).ProducesProblem(503);

    /// <summary>The reply for one stretch, or null when there is no such vat.</summary>
    /// <exception cref="TimeoutException">The store does not answer now.</exception>
    public async Task<ChartReply?> ReadAsync(VatId vat, ChartRange range, int columns, CancellationToken cancel)
    {
        using var deadline = new Deadline(LongestRead, time, cancel);
        await _readers.WaitAsync(deadline.Token);
        try
        {
            if (feed.Find(vat.Value) is not { } live)
            {
                return null;
            }

            var clock = new LocalClock(feed.Clock.Zone, feed.Clock.Now());
            var (ok, traces) = await store.TryReadAsync(
                reader => new StoredTraces(reader, live.Definition, site.Units, clock.Zone).Read(ChartWindow.Of(range, reader, vat, clock.Now.Utc), columns, clock.Now.Utc),
                LongestRead,
                deadline.Token);
            return ok ? new ChartWriter(live, site.Units, clock).Write(WithAhead(traces!, range, live, clock.Now.Utc)) : throw new TimeoutException("The store did not answer.");
        }
        finally
        {
            _readers.Release();
        }
    }

    public void Dispose() => _readers.Dispose();

    private async Task<IResult> AnswerAsync(string vat, HttpContext context)
    {
        var columns = DefaultColumns;
        var width = context.Request.Query["width"];
        if (!ChartRange.TryRead(context.Request.Query, feed.Clock.Zone, out var range)
            || (width.Count > 0 && !(int.TryParse(width, NumberStyles.None, CultureInfo.InvariantCulture, out columns) && columns is >= 10 and <= MostColumns)))
        {
            return Problems.Answer(400, $"The stretch cannot be read; wanted {Wanted}.");
        }

        try
        {
            return await ReadAsync(new(vat), range, columns, context.RequestAborted) is { } reply
                ? TypedResults.Json(reply, ApiJson.Default.ChartReply)
                : Problems.NoVat();
        }
        catch (Exception problem) when (problem is TimeoutException or OperationCanceledException && !context.RequestAborted.IsCancellationRequested)
        {
            return Problems.Answer(503, "The store did not answer in time; try again.");
        }
    }

    // The last hours, and a session that goes on, show some of what lies ahead; an asked-for stretch shows what was asked for.
    private static VatTraces WithAhead(VatTraces traces, ChartRange range, LiveVat live, DateTimeOffset now)
    {
        if (range.From is not null || live.Condition.Heat is null || traces.To < now - TimeSpan.FromMinutes(1))
        {
            return traces;
        }

        var quarter = (traces.To - traces.From) / 4;
        var most = TimeSpan.FromHours(3);
        return traces with { To = now + (quarter < most ? quarter : most) };
    }
}
