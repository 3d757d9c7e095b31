using VatWatch.Alarms;
using VatWatch.Daemon.Web.Alarms.History;
using VatWatch.Daemon.Web.Pages;
using VatWatch.Pipeline;

namespace VatWatch.Daemon.Web.Alarms;

/// <summary>The page of one alarm: why it exists, what may be done with it, and what happened to it.</summary>
internal static class AlarmPageEndpoint
{
    /// <summary>Lines of the vat's journal that are looked through for those of the alarm.</summary>
    private const int LinesRead = 400;
    private const int LinesShown = 20;

    public static void Map(IEndpointRouteBuilder routes) => routes.MapGet("/vats/{vat}/alarms/{alarm}", ShowAsync).ExcludeFromDescription();

    private static async Task ShowAsync(
        string vat, string alarm, HttpContext context, [Service] PageMaker pages, [Service] ILiveFeed feed, [Service] IAlarmHistory history, [Service] TimeProvider time)
    {
        var (id, name) = (new VatId(vat), new AlarmName(alarm));
        var vats = feed.Vats;
        var status = AlarmList.All(feed).FirstOrDefault(one => one.Vat == id && one.Alarm == name);
        var journal = await PageEndpoints.JournalAsync(history, id, null, LinesRead, time, context.RequestAborted);
        var lines = journal?.Where(line => line.Status.Alarm == name).Take(LinesShown).ToList();
        status ??= lines?.FirstOrDefault(line => line.Note is null)?.Status;
        if (status is null)
        {
            await pages.SendMessageAsync(context, StatusCodes.Status404NotFound, "No such alarm", "No alarm of that name has ever been raised here, or it was long ago.");
            return;
        }

        await pages.ShowAsync<AlarmPage>(
            context,
            ("Alarm", PageEndpoints.Views([status], vats)[0]),
            ("Vats", vats.Select(live => live.Definition).ToList()),
            ("Journal", lines));
    }
}
