using System.Globalization;
using VatWatch.Alarms;
using VatWatch.Daemon.Web.Pages;

namespace VatWatch.Daemon.Web.Alarms;

/// <summary>Takes the forms of alarms on the pages (acknowledge, shelve, note and the rest) and goes back to the page they stood on.</summary>
internal static class AlarmForms
{
    /// <summary>Form field of the person's name.</summary>
    public const string NameField = "by";

    /// <summary>Form field of the time on the shelf, min.</summary>
    public const string MinutesField = "minutes";

    /// <summary>Form field of the reason or the note.</summary>
    public const string TextField = "text";

    /// <summary>Form field of the page to come back to.</summary>
    public const string FromField = "from";

    /// <summary>Adds one route for each act.</summary>
    public static void Map(IEndpointRouteBuilder routes)
    {
        foreach (var kind in Enum.GetValues<AlarmActKind>())
        {
            routes.MapPost(
                $"/vats/{{vat}}/alarms/{{alarm}}/{kind.Word()}",
                (string vat, string alarm, HttpContext context, [Service] FormGate gate, [Service] PageMaker pages, [Service] DoubleTaps taps, [Service] AlarmService window) =>
                    TakeAsync(kind, vat, alarm, context, gate, pages, taps, window)).ExcludeFromDescription();
        }
    }

    private static async Task TakeAsync(
        AlarmActKind kind, string vat, string alarm, HttpContext context, FormGate gate, PageMaker pages, DoubleTaps taps, AlarmService window)
    {
        if (await gate.OpenAsync(context, "Not done") is not { } form)
        {
            return;
        }

        var request = new AlarmRequest(kind, vat, alarm, form[NameField], "page")
        {
            Minutes = double.TryParse(form[MinutesField], NumberStyles.Float, CultureInfo.InvariantCulture, out var minutes) ? minutes : null,
            Text = form[TextField],
        };
        var outcome = await taps.OnceAsync(request.By ?? "", vat, request, () => window.CarryOutAsync(request, CancellationToken.None));
        switch (outcome.Kind)
        {
            case AlarmOutcomeKind.OnDisk:
                NameCookie.Remember(AlarmService.TidyName(form[NameField]) ?? "", context);
                FormGate.Return(context, form);
                break;
            case AlarmOutcomeKind.Refused:
                await gate.RefuseAsync(context, "Not done", outcome.Sentence, StatusCodes.Status400BadRequest, form);
                break;
            case AlarmOutcomeKind.NothingToDo:
                await pages.SendMessageAsync(context, StatusCodes.Status409Conflict, "Nothing to do", outcome.Sentence);
                break;
            default:
                await pages.SendMessageAsync(context, StatusCodes.Status503ServiceUnavailable, "Perhaps not done", outcome.Sentence);
                break;
        }
    }
}
