using VatWatch.Daemon.Web.Api;
using VatWatch.Daemon.Web.Pages;
using VatWatch.Pipeline;

namespace VatWatch.Daemon.Web.Heating;

/// <summary>When to switch a heater, as a page and for programs.</summary>
internal static class HeatingEndpoints
{
    public static void Map(IEndpointRouteBuilder routes)
    {
        routes.MapGet("/vats/{vat}/heating", PageAsync).ExcludeFromDescription();
        routes.MapGet("/api/vats/{vat}/heating", Answer)
            .WithName("getHeating").WithSummary("When to switch the heater on, or off, for the liquor to be at a temperature (at, in the units of the display) at a local time (ready, HH:mm).")
            .Produces<HeatingAnswer>().ProducesProblem(400).ProducesProblem(404);
    }

    private static IResult Answer(string vat, HttpRequest request, [Service] ILiveFeed feed, [Service] SiteFacts site)
    {
        if (Find(feed, vat) is not { } live)
        {
            return Problems.Answer(404, "There is no such vat; /api/vats lists them.");
        }

        return HeatingQuestion.TryRead(request.Query, live.Definition, site.Units, out var question, out var whyNot)
            ? TypedResults.Json(HeatingAnswer.Of(live.Condition, question, feed.Clock.Zone), ApiJson.Default.HeatingAnswer)
            : Problems.Answer(400, whyNot!);
    }

    private static async Task PageAsync(string vat, HttpContext context, [Service] PageMaker pages, [Service] ILiveFeed feed)
    {
        if (Find(feed, vat) is not { } live)
        {
            await pages.SendMessageAsync(context, StatusCodes.Status404NotFound, "No such vat", "The configuration has no vat of that name.");
            return;
        }

        var facts = pages.FactsFor(context);
        var units = facts.Site.Units;
        var fits = HeatingQuestion.TryRead(context.Request.Query, live.Definition, units, out var question, out var whyNot);
        await pages.SendAsync<HeatingPage>(
            context,
            fits ? StatusCodes.Status200OK : StatusCodes.Status400BadRequest,
            ("Page", facts),
            ("Name", live.Definition.Name),
            ("Href", $"/vats/{live.Definition.Id}"),
            ("Ready", question.Ready.ToString("HH:mm")),
            ("At", Math.Round(units.FromCelsius(question.TargetC) * 2, MidpointRounding.AwayFromZero) / 2 is var at ? at.ToString("0.#") : null),
            ("Fault", whyNot),
            ("Sentences", fits ? HeatingAnswer.Sentences(live.Condition, question, units, facts.Clock).ToList() : new List<string>()));
    }

    private static LiveVat? Find(ILiveFeed feed, string vat) => feed.Vats.FirstOrDefault(live => live.Definition.Id == new VatId(vat));
}
