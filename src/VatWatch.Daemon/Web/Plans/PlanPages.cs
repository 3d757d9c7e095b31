using VatWatch.Daemon.Dosing;
using VatWatch.Daemon.Plans;
using VatWatch.Daemon.Web.Pages;
using VatWatch.Pipeline;
using VatWatch.Plans;
using VatWatch.Plans.Warm;

namespace VatWatch.Daemon.Web.Plans;

/// <summary>The page of plans: <c>/plan?vat=madder-lane</c> for the night, with <c>what=day</c> for the day. Asking changes nothing.</summary>
internal static class PlanPages
{
    /// <summary>Value of <c>what</c> for a day's batches.</summary>
    public const string Day = "day";

    private static readonly TimeOnly Morning = new(9, 0);

    public static void Map(IEndpointRouteBuilder routes)
    {
        routes.MapGet("/plan", ShowAsync).ExcludeFromDescription();
        routes.MapGet("/plan.ics", CalendarAsync).ExcludeFromDescription();
    }

    private static async Task ShowAsync(HttpContext context, [Service] PageMaker pages, [Service] ILiveFeed feed, [Service] StoreQueries store)
    {
        if (await FindAsync(context, pages, feed) is not { } live)
        {
            return;
        }

        var facts = pages.FactsFor(context);
        var now = feed.Clock.Now().Utc;
        var isDay = context.Request.Query["what"] == Day;
        var (ok, kept) = await store.TryReadAsync(reader => isDay ? PlanKept.ReadAll(reader, live.Definition, now) : PlanKept.Read(reader, live.Definition, now), context.RequestAborted);
        await pages.ShowAsync<PlanPage>(
            context,
            ("Vats", feed.Vats.Select(one => one.Definition).ToList()),
            ("Vat", live.Definition),
            ("IsRead", ok),
            ("Night", isDay ? null : Night(live, kept, context.Request.Query, facts, now)),
            ("Day", isDay ? DayOf(live, kept, context.Request.Query, facts, now) : null));
    }

    /// <summary>The kept plan of today as a calendar.</summary>
    private static async Task CalendarAsync(HttpContext context, [Service] PageMaker pages, [Service] ILiveFeed feed, [Service] StoreQueries store)
    {
        if (await FindAsync(context, pages, feed) is not { } live)
        {
            return;
        }

        var (facts, now) = (pages.FactsFor(context), feed.Clock.Now().Utc);
        var (_, kept) = await store.TryReadAsync(reader => PlanTable.DayOf(reader, live.Definition.Id, now), context.RequestAborted);
        if (kept is null)
        {
            await pages.SendMessageAsync(context, StatusCodes.Status404NotFound, "No plan", "No plan of today is kept; keep one on the page Plan first.");
            return;
        }

        context.Response.ContentType = "text/calendar; charset=utf-8";
        context.Response.Headers.ContentDisposition = "attachment; filename=\"day.ics\"";
        await context.Response.WriteAsync(CalendarFile.Of(live.Definition, kept.Plan, facts.Site.Units, facts.Clock.Zone, now), context.RequestAborted);
    }

    private static async Task<LiveVat?> FindAsync(HttpContext context, PageMaker pages, ILiveFeed feed)
    {
        var query = context.Request.Query;
        var live = query.ContainsKey("vat") ? feed.Vats.FirstOrDefault(one => one.Definition.Id.Value == query["vat"]) : feed.Vats is [var first, ..] ? first : null;
        if (live is null)
        {
            await pages.SendMessageAsync(context, StatusCodes.Status404NotFound, "No such vat", "The configuration has no vat of that name.");
        }

        return live;
    }

    private static NightView Night(LiveVat live, PlanKept? kept, IQueryCollection query, PageFacts facts, DateTimeOffset now)
    {
        var (vat, units, zone) = (live.Definition, facts.Site.Units, facts.Clock.Zone);
        var figures = new DoseFigures();
        var ready = query["ready"].FirstOrDefault() is { Length: > 0 } text ? PlanFields.Time(text) : Morning;
        var targetC = query["at"].FirstOrDefault() is { Length: > 0 } at ? PlanFields.Temperature(at, units) : WarmAsked.UsualTarget(vat);
        if (ready is null)
        {
            figures.Fault("Ready at", query["ready"].ToString(), "a time of day such as 09:00");
        }

        if (targetC is null)
        {
            figures.Fault("Liquor at", query["at"].ToString(), $"a number of {units.TemperatureUnit}");
        }

        var watts = PlanFields.Watts(query["heater"], figures);
        var isAsked = query.ContainsKey("ready");
        var seen = kept?.Seen ?? SeenHeat.Nothing;
        var asked = ready is { } time && targetC is { } wanted && isAsked && figures.Faults.Count == 0 ? LiveWarmPlan.Of(vat, live.Condition, seen, WallTime.Next(time, now, zone), wanted, watts, units, zone) : default;
        var warm = kept?.Warm;
        var next = warm?.Next(now, zone);
        var renewed = warm is not null && next is { } coming ? LiveWarmPlan.Of(vat, live.Condition, seen, coming, warm.TargetC, warm.HeaterWatts, units, zone) : default;
        return new()
        {
            Vat = vat,
            Ready = (ready ?? Morning).ToString("HH:mm"),
            At = Math.Round(units.FromCelsius(targetC ?? WarmAsked.UsualTarget(vat)) * 2) / 2,
            Faults = figures.Faults,
            Refused = asked.Refused,
            Asked = asked.Plan is { } plan ? new WarmText(vat, asked.Heat!, plan, units, zone) : null,
            Kept = warm,
            Next = next,
            Due = renewed.Plan is { } due ? new WarmText(vat, renewed.Heat!, due, units, zone) : null,
            DueRefused = renewed.Refused,
            Checks = NightList.Of(vat.HeaterWatts ?? live.Condition.Heat?.HeaterPower.Watts ?? 0, units),
            HeaterOn = kept?.HeaterOn,
            Heater = query["heater"].ToString(),
            AsksHeater = query.ContainsKey("heater") || PlanFields.AsksHeater(live),
        };
    }

    private static DayView DayOf(LiveVat live, PlanKept? kept, IQueryCollection query, PageFacts facts, DateTimeOffset now)
    {
        var (vat, units, zone) = (live.Definition, facts.Site.Units, facts.Clock.Zone);
        var lines = PlanFields.Lines(query["goods"]);
        var figures = new DoseFigures();
        DayReply? reply = null;
        if (lines.Count > 0)
        {
            var known = PlanFields.Known(live, kept);
            reply = PlanFields.Day(query, lines).Answer(vat, known, kept?.Contents, figures, PlanFields.Label, now, zone, units);
        }

        return new()
        {
            Vat = vat,
            Goods = query["goods"].ToString(),
            Start = query["start"].ToString(),
            Heater = query["heater"].ToString(),
            AsksHeater = query.ContainsKey("heater") || PlanFields.AsksHeater(live),
            Faults = figures.Faults,
            Refused = reply?.Refused,
            Asked = reply?.Plan is { } plan ? (new DayText(vat, reply.Heat!, reply.Wish!, plan, units, zone), plan) : null,
            Kept = kept?.Day,
            Moved = kept?.Day is { } day ? day.Moved(kept.DipsEnded, kept.InSince, now) : null,
            IsAlone = kept?.Day is not null && !query.ContainsKey("goods"),
            Done = kept?.DipsEnded.Count ?? 0,
        };
    }
}
