using System.Globalization;
using VatWatch.Daemon.Web.Alarms.Acts;
using VatWatch.Daemon.Web.LogBook.Photos;
using VatWatch.Daemon.Web.Pages;
using VatWatch.Pipeline;
using VatWatch.Sessions.Entries;
using VatWatch.Sessions;

namespace VatWatch.Daemon.Web.LogBook.Writing;

/// <summary>Takes the forms of the log book and goes back to the page they came from.</summary>
internal sealed class LogBookForms(FormGate gate, SessionService sessions, PictureUpload pictures, DoubleTaps taps, SiteFacts site, ILiveFeed feed)
{
    /// <summary>Field of the entry that is withdrawn.</summary>
    public const string EntryField = "entry";

    /// <summary>Field of the session that another is joined to.</summary>
    public const string OtherField = "other";

    /// <summary>The value of <see cref="EntryFields.Kind"/> that only keeps the name.</summary>
    public const string OnlyName = "name";

    /// <summary>Where the log book stands on a vat's page.</summary>
    private const string Place = "#log-book";

    private const string NotWritten = "Not written";

    public static void Map(IEndpointRouteBuilder routes)
    {
        var vat = routes.MapGroup("/vats/{vat}").ExcludeFromDescription();
        vat.MapPost("/sessions", (string vat, HttpContext context, [Service] LogBookForms forms) => forms.StartAsync(new(vat), context));
        vat.MapPost("/sessions/end", (string vat, HttpContext context, [Service] LogBookForms forms) => forms.EndAsync(new(vat), context));
        vat.MapPost("/sessions/{id}", (string vat, string id, HttpContext context, [Service] LogBookForms forms) => forms.DescribeAsync(new(vat), id, context));
        vat.MapPost("/sessions/{id}/join", (string vat, string id, HttpContext context, [Service] LogBookForms forms) => forms.JoinAsync(new(vat), id, context));
        vat.MapPost("/sessions/{id}/take-apart", (string vat, string id, HttpContext context, [Service] LogBookForms forms) => forms.TakeApartAsync(new(vat), id, context));
        vat.MapPost("/sessions/{id}/take-out", (string vat, string id, HttpContext context, [Service] LogBookForms forms) => forms.TakeOutAsync(new(vat), id, context));
        vat.MapPost("/entries", (string vat, HttpContext context, [Service] LogBookForms forms) => forms.WriteAsync(new(vat), context));
        vat.MapPost("/entries/withdraw", (string vat, HttpContext context, [Service] LogBookForms forms) => forms.WithdrawAsync(new(vat), context));
    }

    private Task StartAsync(VatId vat, HttpContext context) => ActAsync(context, (form, by) => sessions.StartAsync(vat, by, EntryFields.Details(form, site.Units), context.RequestAborted));

    private Task EndAsync(VatId vat, HttpContext context) => ActAsync(context, async (form, by) =>
    {
        var outcome = await sessions.EndAsync(vat, by, context.RequestAborted);
        return outcome is { Refused: null, Session: { } session } && EnumWord.Find<Verdict>(form[EntryFields.Verdict]) is { } verdict
            ? await sessions.DescribeAsync(vat, session.Id, session.Details with { Verdict = verdict }, context.RequestAborted)
            : outcome;
    });

    private Task DescribeAsync(VatId vat, string id, HttpContext context) => ActAsync(context, (form, _) =>
        SessionId.TryParse(id, out var session) ? sessions.DescribeAsync(vat, session, EntryFields.Details(form, site.Units), context.RequestAborted) : Refused("There is no such session."));

    private Task JoinAsync(VatId vat, string id, HttpContext context) => ActAsync(context, (form, by) =>
        SessionId.TryParse(id, out var session) && SessionId.TryParse(form[OtherField].ToString(), out var other)
            ? sessions.JoinAsync(vat, session, other, by, context.RequestAborted)
            : Refused("The form does not name two sessions."));

    private Task TakeApartAsync(VatId vat, string id, HttpContext context) => ActAsync(context, (form, by) =>
        SessionId.TryParse(id, out var session) && long.TryParse(form[EntryField], NumberStyles.None, CultureInfo.InvariantCulture, out var dip)
            ? sessions.TakeApartAsync(vat, session, dip, by, context.RequestAborted)
            : Refused("The form does not say from which dip on."));

    private Task TakeOutAsync(VatId vat, string id, HttpContext context) => ActAsync(context, (_, by) =>
        SessionId.TryParse(id, out var session) ? sessions.TakeOutAsync(vat, session, by, context.RequestAborted) : Refused("There is no such session."));

    private Task WithdrawAsync(VatId vat, HttpContext context) => ActAsync(context, (form, by) =>
        long.TryParse(form[EntryField], NumberStyles.None, CultureInfo.InvariantCulture, out var entry)
            ? sessions.WithdrawAsync(vat, entry, by, context.RequestAborted)
            : Refused("The form does not name an entry."));

    private async Task WriteAsync(VatId vat, HttpContext context)
    {
        if (!PictureUpload.IsForm(context.Request))
        {
            await ActAsync(context, (form, by) => EntryAsync(vat, form, by, null));
        }
        else if (!await pictures.TakeAsync(context, picture => ActAsync(context, (form, by) => EntryAsync(vat, form, by, picture))))
        {
            await gate.RefuseAsync(context, NotWritten, "Too many pictures come at once; try again in a minute.", StatusCodes.Status503ServiceUnavailable);
        }
    }

    private async Task<SessionOutcome> EntryAsync(VatId vat, IFormCollection form, string by, UploadedPicture? picture)
    {
        if (form[EntryFields.Kind] == OnlyName)
        {
            return new(null, null, null);
        }

        var draft = EntryFields.Read(form, vat, by, site, new(feed.Clock.Zone, feed.Clock.Now()));
        if (draft.Kind == EntryKind.Photo && picture is not null)
        {
            return picture.TryDraw(out var photo, out var noPicture) ? await sessions.WriteAsync(draft with { Photo = photo }, CancellationToken.None) : SessionOutcome.Not(noPicture);
        }

        // Whoever hangs up must not take the write of an equal tap with them. What was kept on a phone has a name of its own.
        var tapped = (draft with { At = null, Tap = form.ContainsKey(EntryFields.Kept) ? draft.Tap : null }, form[EntryFields.When].ToString(), form[EntryFields.At].ToString());
        return await taps.OnceAsync(draft.By, draft.Vat.Value, tapped, () => sessions.WriteAsync(draft, CancellationToken.None));
    }

    private async Task ActAsync(HttpContext context, Func<IFormCollection, string, Task<SessionOutcome>> act)
    {
        if (await gate.OpenAsync(context, NotWritten) is not { } form || await gate.NameAsync(context, form, NotWritten) is not { } by)
        {
            return;
        }

        SessionOutcome outcome;
        try
        {
            outcome = await act(form, by);
        }
        catch (UnusableFormException unusable)
        {
            outcome = SessionOutcome.Not(unusable.Message);
        }

        if (outcome.Refused is { } why)
        {
            await gate.RefuseAsync(context, NotWritten, why, form: form);
        }
        else
        {
            FormGate.Return(context, form, IsVatPage(form[AlarmForms.FromField]) ? Place : "");
        }
    }

    private static bool IsVatPage(string? path) => path is not null && path.StartsWith("/vats/", StringComparison.Ordinal) && path.Count(one => one == '/') == 2;

    private static Task<SessionOutcome> Refused(string why) => Task.FromResult(SessionOutcome.Not(why));
}
