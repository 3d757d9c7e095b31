using VatWatch.Conditions;
using VatWatch.Daemon.Dosing;
using VatWatch.Daemon.Web.Api;
using VatWatch.Pipeline;
using VatWatch.Plans.Warm;

namespace VatWatch.Daemon.Web.Plans;

/// <summary>When to switch a heater, for programs.</summary>
internal static class HeatingApi
{
    /// <summary>Adds the route.</summary>
    public static void Map(IEndpointRouteBuilder routes) => routes.MapGet("/api/vats/{vat}/heating", AnswerAsync)
        .WithName("getHeating").WithSummary("When to switch the heater on, or off, for the liquor to be at a temperature (at, in the units of the display) at a local time (ready, HH:mm).")
        .Produces<HeatingAnswer>().ProducesProblem(400).ProducesProblem(404);

    private static async Task<IResult> AnswerAsync(string vat, HttpContext context, [Service] ILiveFeed feed, [Service] SiteFacts site, [Service] StoreQueries store)
    {
        if (feed.Find(vat) is not { } live)
        {
            return Problems.NoVat();
        }

        var figures = new DoseFigures();
        var question = WarmQuestion.Read(context.Request.Query, live.Definition, site.Units, figures);
        if (figures.Faults.Count > 0)
        {
            return Problems.Answer(400, string.Join(" ", figures.Faults));
        }

        var now = feed.Clock.Now().Utc;
        var (_, seen) = await store.TryReadAsync(reader => SeenHeat.Read(reader, live.Definition, now), context.RequestAborted);
        return TypedResults.Json(HeatingAnswer.Of(live, seen ?? SeenHeat.Nothing, question, now, site.Units, feed.Clock.Zone), ApiJson.Default.HeatingAnswer);
    }
}

/// <summary>When to switch the heater so that a vat is ready at an hour.</summary>
/// <param name="Ready">That hour, UTC.</param>
/// <param name="TargetC">Wanted liquor temperature.</param>
/// <param name="HeaterOn">Whether the heater heats now; null when not known.</param>
/// <param name="SwitchOn">Time until the heater is to be switched on, early when it must not be late; null when there is no answer.</param>
/// <param name="NoSwitchOn">Why not, as a sentence.</param>
/// <param name="SwitchOff">Time until it may go off for the liquor to coast to the target; null when there is no answer.</param>
/// <param name="NoSwitchOff">Why not, as a clause.</param>
internal sealed record HeatingAnswer(
    DateTimeOffset Ready, double TargetC, bool? HeaterOn, ForecastDocument? SwitchOn, string? NoSwitchOn, ForecastDocument? SwitchOff, string? NoSwitchOff)
{
    /// <summary>Works it out from the newest condition.</summary>
    public static HeatingAnswer Of(LiveVat live, SeenHeat seen, WarmQuestion question, DateTimeOffset now, DisplayUnits units, TimeZoneInfo zone)
    {
        var ready = WallTime.Next(question.Ready, now, zone);
        var (_, plan, refused) = LiveWarmPlan.Of(live.Definition, live.Condition, seen, ready, question.TargetC, null, units, zone);
        var isOn = live.Condition.Heat?.HeaterOn;
        var off = Coasting(live, question, ready);
        return new(
            ready,
            Math.Round(question.TargetC, 2),
            isOn,
            plan is null || isOn == true ? null : ForecastDocument.Of(new(Wait(plan.LatestSafe ?? now), Wait(plan.SwitchOn + plan.Ahead), Wait(plan.SwitchOn + plan.Ahead + (plan.SwitchOff - plan.ReadyEarly)))),
            isOn == true ? "The heater is on." : refused,
            ForecastDocument.Of(off.Forecast),
            off.WhyNot);

        TimeSpan Wait(DateTimeOffset at) => at > now ? at - now : TimeSpan.Zero;
    }

    /// <summary>Time until a heater that is on may go off for the liquor to coast to the target.</summary>
    public static ForecastAnswer Coasting(LiveVat live, WarmQuestion question, DateTimeOffset ready) =>
        live.Condition.Heat is { } heat
            ? heat.SwitchOff(question.TargetC, ready - live.Condition.Stamp.Utc, live.Definition.Temperature.HighC)
            : new(null, live.Condition.NoTimeToBand ?? "the temperature is not known");
}
