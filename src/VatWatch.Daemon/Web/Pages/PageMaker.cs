using System.Text;
using Microsoft.AspNetCore.Antiforgery;
using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Components.Web;
using VatWatch.Alarms.Acts;
using VatWatch.Daemon.Web.Security;
using VatWatch.Pipeline;

namespace VatWatch.Daemon.Web.Pages;

/// <summary>
/// Renders a page component to HTML and sends it. A page is made whole before its first byte goes out, so a fault in it gives an error page
/// and never half a page.
/// </summary>
internal sealed class PageMaker(IServiceProvider services, ILoggerFactory loggers, SiteFacts site, ILiveFeed feed)
{
    /// <summary>The facts for this request. A form on the page sets the anti-forgery cookie, so render it before the answer begins.</summary>
    public PageFacts FactsFor(HttpContext context)
    {
        // The tokens set their own cache header and log a warning when one is there already; SendAsync sets ours afterwards.
        context.Response.Headers.CacheControl = default;
        var visitor = Visitor.Of(context);
        return new()
        {
            Site = site,
            Clock = new(feed.Clock.Zone, feed.Clock.Now()),
            Freshness = new(site.SimulationSpeed),
            Tokens = new(() => services.GetRequiredService<IAntiforgery>().GetAndStoreTokens(context)),
            LastName = AlarmService.TidyName(context.Request.Cookies[NameCookie.Name]) ?? "",
            Path = context.Request.Path.Value ?? "/",
            CanSignOut = visitor is { Session: not null },
            CanAct = visitor is { Role: Role.Operator },
        };
    }

    /// <summary>Renders <typeparamref name="TPage"/> with these parameters and the facts for this request, and sends it.</summary>
    public async Task SendAsync<TPage>(HttpContext context, int status, params (string Name, object? Value)[] parameters)
        where TPage : IComponent
    {
        var all = parameters.ToDictionary(one => one.Name, one => one.Value, StringComparer.Ordinal);
        all.TryAdd("Page", FactsFor(context));
        var view = ParameterView.FromDictionary(all);
        await using var renderer = new HtmlRenderer(services, loggers);
        var html = await renderer.Dispatcher.InvokeAsync(async () => (await renderer.RenderComponentAsync<TPage>(view)).ToHtmlString());
        context.Response.StatusCode = status;
        context.Response.ContentType = "text/html; charset=utf-8";
        context.Response.Headers.CacheControl = "no-store";
        await context.Response.Body.WriteAsync(Encoding.UTF8.GetBytes(html), context.RequestAborted);
    }

    public Task ShowAsync<TPage>(HttpContext context, params (string Name, object? Value)[] parameters)
        where TPage : IComponent => SendAsync<TPage>(context, StatusCodes.Status200OK, parameters);

    public Task SendMessageAsync(HttpContext context, int status, string title, string sentence) =>
        SendAsync<MessagePage>(context, status, ("Title", title), ("Sentence", sentence));

    /// <summary>The answer to an address that names a vat nobody configured.</summary>
    public Task SendNoVatAsync(HttpContext context) =>
        SendMessageAsync(context, StatusCodes.Status404NotFound, "No such vat", "The configuration has no vat of that name.");
}
