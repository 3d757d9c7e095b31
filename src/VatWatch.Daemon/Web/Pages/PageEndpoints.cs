using VatWatch.Alarms.Figures;
using VatWatch.Alarms;
using VatWatch.Daemon.Web.Api;
using VatWatch.Daemon.Web.Alarms.History;
using VatWatch.Daemon.Web.Alarms;
using VatWatch.Daemon.Web.Drawing;
using VatWatch.Daemon.Web.LogBook;
using VatWatch.Daemon.Web.Settings;
using VatWatch.Daemon.Web.Vats.Figures;
using VatWatch.Daemon.Web.Vats;
using VatWatch.Pipeline;
using VatWatch.Store;

namespace VatWatch.Daemon.Web.Pages;

/// <summary>The pages that show something.</summary>
internal static class PageEndpoints
{
    private const int JournalLines = 100;
    private const int VatJournalLines = 12;

    /// <summary>Columns read for a chart's words: enough for the extremes and for breaks.</summary>
    private const int SummaryColumns = 60;

    /// <summary>What the live script sends along.</summary>
    private const string RefreshHeader = "VatWatch-Refresh";

    private static readonly TimeSpan LongestRead = TimeSpan.FromSeconds(5);

    public static void Map(IEndpointRouteBuilder routes)
    {
        var pages = routes.MapGroup("").ExcludeFromDescription();
        pages.MapGet("/", AllVatsAsync);
        pages.MapGet("/vats/{vat}", OneVatAsync);
        pages.MapGet("/alarms", AlarmsAsync);
        pages.MapGet("/settings", SettingsAsync);
    }

    /// <summary>The page of all vats, also shown again with what was wrong with a form.</summary>
    public static Task AllVatsAsync(HttpContext context, [Service] PageMaker pages, [Service] ILiveFeed feed)
    {
        var facts = pages.FactsFor(context);
        var vats = feed.Vats;
        return pages.ShowAsync<VatsPage>(
            context,
            ("Vats", vats.Select(live => VatView.Of(live, facts)).ToList()),
            ("Alarms", Views(AlarmList.All(feed).Where(alarm => alarm.IsActive), vats)));
    }

    private static async Task OneVatAsync(
        string vat, HttpContext context, [Service] PageMaker pages, [Service] ILiveFeed feed, [Service] IAlarmHistory history, [Service] ChartApi charts, [Service] StoreQueries store, [Service] TimeProvider time)
    {
        var vats = feed.Vats;
        if (vats.FirstOrDefault(live => live.Definition.Id == new VatId(vat)) is not { } found)
        {
            await pages.SendNoVatAsync(context);
            return;
        }

        var journal = await JournalAsync(history, found.Definition.Id, null, VatJournalLines, time, context.RequestAborted);
        var facts = pages.FactsFor(context);
        await pages.ShowAsync<VatPage>(
            context,
            ("Vat", VatView.Of(found, facts)),
            ("Alarms", Views(AlarmList.All(feed).Where(alarm => alarm.Vat == found.Definition.Id), vats)),
            ("Journal", journal),
            ("Book", await LogBookView.ReadAsync(store, found.Definition.Id, facts.Clock.Now.Utc, context.RequestAborted)),
            ("WorkedOut", WorkedOutView.Of(found.Condition, found.Definition, facts)),
            ("Chart", await ChartAsync(charts, found.Definition.Id, facts.Clock.Zone, context)));
    }

    private static Task SettingsAsync(HttpContext context, [Service] PageMaker pages, [Service] SettingsFacts settings) => pages.ShowAsync<SettingsPage>(
        context, ("Facts", settings), ("View", SettingsView.Of(settings)));

    /// <summary>The stretch in words. A page that only refreshes itself keeps its chart, so nothing is read for it.</summary>
    private static async Task<ChartView> ChartAsync(ChartApi charts, VatId vat, TimeZoneInfo zone, HttpContext context)
    {
        var isReadable = ChartRange.TryRead(context.Request.Query, zone, out var range);
        ChartReply? reply = null;
        if (!context.Request.Headers.ContainsKey(RefreshHeader))
        {
            try
            {
                reply = await charts.ReadAsync(vat, range, SummaryColumns, context.RequestAborted);
            }
            catch (Exception problem) when (problem is TimeoutException or OperationCanceledException && !context.RequestAborted.IsCancellationRequested)
            {
                // The page says so and shows the rest.
            }
        }

        return new()
        {
            Range = range,
            IsInsteadOfWish = !isReadable,
            Summary = reply?.Summary,
            Happened = reply is null ? [] : [.. reply.Marks.Select(mark => (mark.Letter, mark.Text))],
            Zone = zone,
        };
    }

    private static async Task AlarmsAsync(
        HttpContext context, [Service] PageMaker pages, [Service] ILiveFeed feed, [Service] IAlarmHistory history, [Service] TimeProvider time)
    {
        var before = ApiTime.Of(context.Request.Query["before"]);
        var journal = await JournalAsync(history, null, before, JournalLines, time, context.RequestAborted);
        await pages.ShowAsync<AlarmsPage>(
            context,
            ("Alarms", Views(AlarmList.All(feed), feed.Vats)),
            ("Vats", feed.Vats.Select(live => live.Definition).ToList()),
            ("Journal", journal),
            ("Week", before is null ? await WeekAsync(history, feed.Clock.Now().Utc, time, context.RequestAborted) : null),
            ("IsNewest", before is null),
            ("HasMore", journal?.Count == JournalLines));
    }

    /// <summary>The journal, or null when the store does not give it (in time): the page then says so and shows the rest.</summary>
    internal static Task<IReadOnlyList<AlarmChange>?> JournalAsync(
        IAlarmHistory history, VatId? vat, DateTimeOffset? before, int count, TimeProvider time, CancellationToken cancel) =>
        InTimeAsync(deadline => history.ReadAsync(vat, before, count, deadline), time, cancel);

    private static async Task<AlarmWeek?> WeekAsync(IAlarmHistory history, DateTimeOffset now, TimeProvider time, CancellationToken cancel) =>
        (await InTimeAsync(deadline => history.WeeksAsync(now, 1, deadline), time, cancel))?[0];

    private static async Task<T?> InTimeAsync<T>(Func<CancellationToken, Task<T>> read, TimeProvider time, CancellationToken cancel)
        where T : class
    {
        using var deadline = new Deadline(LongestRead, time, cancel);
        try
        {
            return await read(deadline.Token).WaitAsync(deadline.Token);
        }
        catch (Exception problem) when (problem is StoreUnavailableException or OperationCanceledException && !cancel.IsCancellationRequested)
        {
            return null;
        }
    }

    internal static List<AlarmView> Views(IEnumerable<AlarmStatus> alarms, IReadOnlyList<LiveVat> vats) =>
        [.. alarms.Select(alarm => AlarmView.Of(alarm, vats.Select(live => live.Definition)))];
}
