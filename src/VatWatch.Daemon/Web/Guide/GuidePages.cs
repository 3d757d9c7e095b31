using Markdig;
using Markdig.Extensions.AutoIdentifiers;
using Markdig.Renderers.Html;
using Markdig.Syntax;
using Markdig.Syntax.Inlines;
using Microsoft.AspNetCore.Components;
using VatWatch.Daemon.Web.Pages;

namespace VatWatch.Daemon.Web.Guide;

/// <summary>The pages of <c>config/guide</c> and the notes on heaters, caustics and electrodes, which lie inside the program as they were written.</summary>
internal static class GuidePages
{
    private const string Prefix = "guide/";

    private static readonly MarkdownPipeline Pipeline = new MarkdownPipelineBuilder().UsePipeTables().UseAutoIdentifiers(AutoIdentifierOptions.GitHub).DisableHtml().Build();

    private static readonly Dictionary<string, string> Titles = ReadTitles();

    public static IEnumerable<(string Name, string Title)> All => Titles.OrderBy(page => page.Value, StringComparer.Ordinal).Select(page => (page.Key, page.Value));

    public static void Map(IEndpointRouteBuilder routes) =>
        routes.MapGet("/guide/{name}", (string name, HttpContext context, [Service] PageMaker pages) => Titles.TryGetValue(name, out var title)
            ? pages.ShowAsync<GuidePage>(context, ("Title", title), ("Text", new MarkupString(Render(Read(name)))))
            : pages.SendMessageAsync(context, StatusCodes.Status404NotFound, "No such page", "The guide has no page of that name.")).ExcludeFromDescription();

    /// <summary>HTML of one page. Raw HTML in it is shown as text.</summary>
    internal static string Render(string markdown)
    {
        var page = Markdown.Parse(markdown, Pipeline);
        foreach (var link in page.Descendants<LinkInline>().ToList())
        {
            Lead(link);
        }

        foreach (var table in page.Descendants<Markdig.Extensions.Tables.Table>())
        {
            table.GetAttributes().AddClass("guide");
        }

        return page.ToHtml(Pipeline);
    }

    /// <summary>Lets a link to another page of the guide lead there, and leaves only the words of what lies elsewhere in the repository.</summary>
    private static void Lead(LinkInline link)
    {
        var url = link.Url ?? "";
        if (url.StartsWith("http", StringComparison.Ordinal) || url.StartsWith('#'))
        {
            return;
        }

        var (file, mark) = url.Split('#') is [var before, var after] ? (before, "#" + after) : (url, "");
        if (!link.IsImage && Titles.ContainsKey(Path.GetFileNameWithoutExtension(file)) && file.EndsWith(".md", StringComparison.Ordinal))
        {
            link.Url = $"/guide/{Path.GetFileNameWithoutExtension(file)}{mark}";
            return;
        }

        var words = new EmphasisInline { DelimiterChar = '*', DelimiterCount = 1 };
        link.ReplaceBy(words, copyChildren: true);
    }

    private static string Read(string name)
    {
        using var reader = new StreamReader(typeof(GuidePages).Assembly.GetManifestResourceStream(Prefix + name + ".md")!);
        return reader.ReadToEnd();
    }

    private static Dictionary<string, string> ReadTitles() => typeof(GuidePages).Assembly.GetManifestResourceNames()
        .Where(name => name.StartsWith(Prefix, StringComparison.Ordinal))
        .Select(name => name[Prefix.Length..^".md".Length])
        .ToDictionary(name => name, name => Read(name).Split('\n', 2)[0].TrimStart('#', ' '), StringComparer.Ordinal);
}
