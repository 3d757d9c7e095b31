using VatWatch.Charts.Life;
using VatWatch.Daemon.Web.Drawing;
using VatWatch.Daemon.Web.Pages;
using VatWatch.Pipeline;

namespace VatWatch.Daemon.Web.LogBook.History;

/// <summary>A vat over months, as a page and as files: <c>/vats/{vat}/life</c> and <c>/vats/{vat}/life.{html|pdf|png|svg}</c>.</summary>
internal static class LifePages
{
    public static void Map(IEndpointRouteBuilder routes)
    {
        var pages = routes.MapGroup("").ExcludeFromDescription();
        pages.MapGet("/vats/{vat}/life", PageAsync);
        pages.MapGet("/vats/{vat}/life.{ending}", FileAsync);
    }

    private static async Task PageAsync(
        string vat, HttpContext context, [Service] PageMaker pages, [Service] ILiveFeed feed, [Service] DrawnFiles files, [Service] SiteFacts site)
    {
        if (feed.Find(vat)?.Definition is not { } definition)
        {
            await pages.SendNoVatAsync(context);
            return;
        }

        var (ok, life) = await files.ReadAsync(reader => VatLife.Load(reader, definition, site.Units), context.RequestAborted);
        if (!ok || life is null)
        {
            await SessionPages.UnreadAsync(context, pages);
            return;
        }

        await pages.ShowAsync<LifePage>(
            context, ("Life", life), ("Tables", life.Chart(feed.Clock.Zone).Tables));
    }

    private static Task<IResult> FileAsync(string vat, string ending, HttpContext context, [Service] ILiveFeed feed, [Service] DrawnFiles files, [Service] SiteFacts site)
    {
        if (!DrawnFiles.Endings.Contains(ending) || feed.Find(vat)?.Definition is not { } definition)
        {
            return Task.FromResult<IResult>(TypedResults.NotFound());
        }

        return files.AnswerAsync(context, ending, $"{vat}-life", (reader, options, stream) =>
        {
            VatLife.Load(reader, definition, site.Units).Chart(options.Zone).Write($"life.{ending}", options, stream);
            return true;
        });
    }
}
