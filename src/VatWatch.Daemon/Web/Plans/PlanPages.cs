using VatWatch.Daemon.Dosing;
using VatWatch.Daemon.Plans;
using VatWatch.Daemon.Web.Pages;
using VatWatch.Daemon.Web.Vats.Figures;
using VatWatch.Pipeline;
using VatWatch.Plans.Warm;

namespace VatWatch.Daemon.Web.Plans;

/// <summary>The page of plans: <c>/plan?vat=madder-lane</c> for the night, with <c>what=day</c> for the day. Asking changes nothing.</summary>
internal static class PlanPages
{
    /// <summary>Value of <c>what</c> for a day's batches.</summary>
    public const string Day = "day";

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
        var (ok, kept) = await store.TryReadAsync(reader => isDay ? PlanKept.ReadAll(reader, live.Definition, now, facts.Clock.Zone) : PlanKept.Read(reader, live.Definition, now, facts.Clock.Zone), context.RequestAborted);
        await pages.ShowAsync<PlanPage>(
            context,
            ("Vats", feed.Vats.Select(one => one.Definition).ToList()),
            ("Vat", live.Definition),
            ("IsRead", ok),
            ("Night", isDay ? null : Night(live, kept, context.Request.Query, facts, now)),
            ("Day", isDay ? DayOf(live, kept, context.Request.Query, facts, now) : null));
    }

    /// <summary>The plans that are kept as a calendar.</summary>
    private static async Task CalendarAsync(HttpContext context, [Service] PageMaker pages, [Service] ILiveFeed feed, [Service] StoreQueries store)
    {
        if (await FindAsync(context, pages, feed) is not { } live)
        {
            return;
        }

        var (facts, now) = (pages.FactsFor(context), feed.Clock.Now().Utc);
        var (_, kept) = await store.TryReadAsync(reader => PlanKept.Read(reader, live.Definition, now, facts.Clock.Zone), context.RequestAborted);
        var (units, zone) = (facts.Site.Units, facts.Clock.Zone);
        var warm = Renewed(live, kept, units, zone, now);
        if (warm.Plan is null && kept?.Day is null)
        {
            await pages.SendMessageAsync(context, StatusCodes.Status404NotFound, "No plan", "No plan is kept that a calendar could hold; keep one on the page Plan first.");
            return;
        }

        var calendar = new CalendarFile(live.Definition, units, zone, now);
        if (warm is { Plan: { } plan, Heat: { } heat })
        {
            calendar.Add(plan, new WarmText(live.Definition, heat, plan, units, zone), live.Definition.HeaterWatts ?? heat.PowerW);
        }

        if (kept?.Day is { } day)
        {
            calendar.Add(day.Plan);
        }

        context.Response.ContentType = "text/calendar; charset=utf-8";
        context.Response.Headers.ContentDisposition = "attachment; filename=\"plan.ics\"";
        await context.Response.WriteAsync(calendar.ToString(), context.RequestAborted);
    }

    /// <summary>The kept warm-up as it comes to now.</summary>
    private static (VatHeat? Heat, WarmPlan? Plan, string? Refused) Renewed(LiveVat live, PlanKept? kept, DisplayUnits units, TimeZoneInfo zone, DateTimeOffset now) =>
        kept?.Warm is { } warm && warm.Next(now, zone) is { } next
            ? LiveWarmPlan.Of(live.Definition, live.Condition, kept.Seen, next, warm.TargetC, warm.HeaterWatts, units, zone)
            : default;

    private static async Task<LiveVat?> FindAsync(HttpContext context, PageMaker pages, ILiveFeed feed)
    {
        var query = context.Request.Query;
        var live = query.ContainsKey("vat") ? feed.Find(query["vat"].ToString()) : feed.Vats is [var first, ..] ? first : null;
        if (live is null)
        {
            await pages.SendNoVatAsync(context);
        }

        return live;
    }

    private static NightView Night(LiveVat live, PlanKept? kept, IQueryCollection query, PageFacts facts, DateTimeOffset now)
    {
        var (vat, units, zone) = (live.Definition, facts.Site.Units, facts.Clock.Zone);
        var figures = new DoseFigures();
        var question = WarmQuestion.Read(query, vat, units, figures);
        var watts = PlanFields.Watts(query["heater"], figures);
        var isAsked = query.ContainsKey("ready");
        var seen = kept?.Seen ?? SeenHeat.Nothing;
        var ready = WallTime.Next(question.Ready, now, zone);
        var asked = isAsked && figures.Faults.Count == 0 ? LiveWarmPlan.Of(vat, live.Condition, seen, ready, question.TargetC, watts, units, zone) : default;
        var renewed = Renewed(live, kept, units, zone, now);
        return new()
        {
            Vat = vat,
            Ready = question.Ready.ToString("HH:mm"),
            At = Math.Round(units.FromCelsius(question.TargetC) * 2) / 2,
            Coasting = live.Condition.Heat?.HeaterOn == true ? Coasting(live, question, ready, facts) : null,
            Faults = figures.Faults,
            Refused = asked.Refused,
            Asked = asked.Plan is { } plan ? new WarmText(vat, asked.Heat!, plan, units, zone) : null,
            Kept = kept?.Warm,
            Next = kept?.Warm?.Next(now, zone),
            Due = renewed.Plan is { } due ? new WarmText(vat, renewed.Heat!, due, units, zone) : null,
            DueRefused = renewed.Refused,
            Checks = NightList.Of(vat.HeaterWatts ?? live.Condition.Heat?.HeaterPower.Watts ?? 0, units),
            Switched = kept?.Heater,
            Heater = query["heater"].ToString(),
            AsksHeater = query.ContainsKey("heater") || PlanFields.AsksHeater(live),
        };
    }

    /// <summary>When a heater that is on may go off, as a sentence.</summary>
    private static string Coasting(LiveVat live, WarmQuestion question, DateTimeOffset ready, PageFacts facts)
    {
        var target = $"{facts.Site.Units.Temperature(question.TargetC)} at {question.Ready:HH\\:mm}";
        return HeatingAnswer.Coasting(live, question, ready) switch
        {
            { Forecast: { } off } => $"The heater is on. For the liquor to coast to {target}, switch it off {ForecastText.Range(off, live.Condition.Stamp, facts.Clock)}.",
            { WhyNot: var why } => $"The heater is on. No time to switch it off leads to {target}: {why}.",
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
            reply = PlanFields.Day(name => query[name], lines).Answer(vat, known, kept?.Contents, figures, PlanFields.Label, now, zone, units);
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
