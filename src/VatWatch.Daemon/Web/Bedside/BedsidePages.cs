using VatWatch.Alarms;
using VatWatch.Daemon.Web.Alarms;
using VatWatch.Daemon.Web.Pages;
using VatWatch.Daemon.Web.Vats;
using VatWatch.Pipeline;

namespace VatWatch.Daemon.Web.Bedside;

/// <summary>
/// The page that stands on a phone beside the bed: <c>/bedside</c> for every vat, <c>?vat=ID</c> for one, <c>?sound=</c> for the priority from which it
/// sounds. Its script fetches the page again and again, and sounds for what the page marks.
/// </summary>
internal static class BedsidePages
{
    /// <summary>Address of the page.</summary>
    public const string Path = "/bedside";

    public const string VatField = "vat";

    /// <summary>Field of the lowest priority that sounds.</summary>
    public const string SoundField = "sound";

    private const AlarmPriority Usual = AlarmPriority.High;

    public static void Map(IEndpointRouteBuilder routes) => routes.MapGet(Path, ShowAsync).ExcludeFromDescription();

    private static Task ShowAsync(HttpContext context, [Service] PageMaker pages, [Service] ILiveFeed feed)
    {
        var wanted = context.Request.Query[VatField].ToString();
        var vats = feed.Vats;
        var shown = vats.Where(live => wanted.Length == 0 || live.Definition.Id.Value == wanted).ToList();
        if (wanted.Length > 0 && shown.Count == 0)
        {
            return pages.SendNoVatAsync(context);
        }

        var facts = pages.FactsFor(context);
        return pages.ShowAsync<BedsidePage>(
            context,
            ("All", vats.Select(live => live.Definition).ToList()),
            ("Vats", shown.ConvertAll(live => VatView.Of(live, facts))),
            ("Only", wanted),
            ("SoundsFrom", EnumWord.Find<AlarmPriority>(context.Request.Query[SoundField]) ?? Usual),
            ("Alarms", PageEndpoints.Views(AlarmList.All(feed).Where(alarm => alarm.IsActive && IsShown(alarm)), vats)));

        bool IsShown(AlarmStatus alarm) => alarm.Vat == VatId.Daemon || shown.Exists(live => live.Definition.Id == alarm.Vat);
    }
}
