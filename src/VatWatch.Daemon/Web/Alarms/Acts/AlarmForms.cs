using System.Globalization;
using VatWatch.Alarms.Acts;
using VatWatch.Daemon.Web.Pages;

namespace VatWatch.Daemon.Web.Alarms.Acts;

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

    /// <summary>Form field of the alarms that are acknowledged together: each "vat/alarm", with spaces between.</summary>
    public const string AlarmField = "alarm";

    public const string AcknowledgePath = "/alarms/acknowledge";

    /// <summary>More than any page shows.</summary>
    private const int MostTogether = 100;

    /// <summary>Adds one route for each act, and one that acknowledges several.</summary>
    public static void Map(IEndpointRouteBuilder routes)
    {
        routes.MapPost(AcknowledgePath, AcknowledgeAsync).ExcludeFromDescription();
        foreach (var kind in Enum.GetValues<AlarmActKind>())
        {
            routes.MapPost(
                $"/vats/{{vat}}/alarms/{{alarm}}/{kind.Word()}",
                (string vat, string alarm, HttpContext context, [Service] FormGate gate, [Service] PageMaker pages, [Service] DoubleTaps taps, [Service] AlarmService alarms) =>
                    TakeAsync(kind, vat, alarm, context, gate, pages, taps, alarms)).ExcludeFromDescription();
        }
    }

    private static async Task AcknowledgeAsync(HttpContext context, [Service] FormGate gate, [Service] PageMaker pages, [Service] DoubleTaps taps, [Service] AlarmService alarms)
    {
        if (await gate.OpenAsync(context, "Not done") is not { } form)
        {
            return;
        }

        var requests = form[AlarmField].ToString().Split(' ', StringSplitOptions.RemoveEmptyEntries).Take(MostTogether).Select(name => name.Split('/', 2))
            .Select(parts => new AlarmRequest(AlarmActKind.Acknowledge, parts[0], parts.Length > 1 ? parts[1] : null, form[NameField], "page")).ToList();
        var outcome = new AlarmOutcome(AlarmOutcomeKind.Refused, "the form does not name an alarm; go back and reload the page");
        foreach (var one in await taps.OnceAsync(form[NameField].ToString(), AcknowledgePath, form[AlarmField].ToString(), () => Task.WhenAll(requests.Select(request => alarms.CarryOutAsync(request, CancellationToken.None)))))
        {
            // What has not been done is told; what was done meanwhile by somebody else is no fault beside what is done now.
            outcome = one.Kind == AlarmOutcomeKind.NothingToDo && outcome.Kind is AlarmOutcomeKind.OnDisk or AlarmOutcomeKind.InMemory ? outcome : one;
        }

        await AnswerAsync(outcome, context, form, gate, pages);
    }

    private static async Task TakeAsync(
        AlarmActKind kind, string vat, string alarm, HttpContext context, FormGate gate, PageMaker pages, DoubleTaps taps, AlarmService alarms)
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
        var outcome = await taps.OnceAsync(request.By ?? "", vat, request, () => alarms.CarryOutAsync(request, CancellationToken.None));
        await AnswerAsync(outcome, context, form, gate, pages);
    }

    private static async Task AnswerAsync(AlarmOutcome outcome, HttpContext context, IFormCollection form, FormGate gate, PageMaker pages)
    {
        switch (outcome.Kind)
        {
            case AlarmOutcomeKind.OnDisk:
                NameCookie.Remember(AlarmService.TidyName(form[NameField]) ?? "", context);
                FormGate.Return(context, form);
                break;
            case AlarmOutcomeKind.InMemory:
                await pages.SendMessageAsync(context, StatusCodes.Status202Accepted, "Done, but not on the disk", outcome.Sentence);
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
