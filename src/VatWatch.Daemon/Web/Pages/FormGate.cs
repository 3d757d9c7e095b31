using Microsoft.AspNetCore.Antiforgery;
using VatWatch.Alarms.Acts;
using VatWatch.Daemon.Web.Alarms.Acts;
using VatWatch.Daemon.Web.Security;

namespace VatWatch.Daemon.Web.Pages;

/// <summary>What every form that changes something goes through: the anti-forgery token, and the name of who sent it. Thread safe.</summary>
internal sealed class FormGate(IAntiforgery antiforgery, PageMaker pages)
{
    /// <summary>What a name must be, for an error's sentence.</summary>
    public const string WantedName = "a name of 1 to 60 characters";

    /// <summary>The form; null when it was none of ours, and then an answer has been sent.</summary>
    public async Task<IFormCollection?> OpenAsync(HttpContext context, string failure)
    {
        if (!context.Request.HasFormContentType || !await IsReadableAsync(context) || !await antiforgery.IsRequestValidAsync(context))
        {
            await pages.SendMessageAsync(context, StatusCodes.Status400BadRequest, failure,
                "The form was too old or did not come from this page. Go back, reload the page and try again.");
            return null;
        }

        return await context.Request.ReadFormAsync(context.RequestAborted);
    }

    /// <summary>
    /// Whether a form can be read at all; one that is cut short or malformed cannot. Asked before the token is looked for: the framework takes a body
    /// that is too large for a bad token, and people should hear which it is.
    /// </summary>
    public static async Task<bool> IsReadableAsync(HttpContext context)
    {
        try
        {
            await context.Request.ReadFormAsync(context.RequestAborted);
            ConnectionPlace.Keep(context);
            return true;
        }
        catch (Exception unreadable) when (unreadable is InvalidDataException or IOException and not BadHttpRequestException)
        {
            return false;
        }
    }

    /// <summary>The name in a form, remembered from now on; null when there is none, and then an answer has been sent.</summary>
    public async Task<string?> NameAsync(HttpContext context, IFormCollection form, string failure)
    {
        if (AlarmService.TidyName(form[AlarmForms.NameField]) is { } by)
        {
            NameCookie.Remember(by, context);
            return by;
        }

        await RefuseAsync(context, failure, $"The log book needs {WantedName}, so that it says who wrote it.", StatusCodes.Status400BadRequest, form);
        return null;
    }

    /// <summary>Says why nothing was done, and shows the form again with what was typed where there is one.</summary>
    public Task RefuseAsync(HttpContext context, string failure, string sentence, int status = StatusCodes.Status409Conflict, IFormCollection? form = null)
    {
        var page = pages.FactsFor(context);
        return pages.SendAsync<MessagePage>(
            context, status, ("Title", failure), ("Sentence", sentence), ("Again", form is null ? null : AgainForm.Of(context, form, page.TokenField)));
    }

    /// <summary>Sends the browser back to the page of the form, or to the place of the page that is named.</summary>
    public static void Return(HttpContext context, IFormCollection form, string place = "")
    {
        context.Response.StatusCode = StatusCodes.Status303SeeOther;
        context.Response.Headers.Location = LocalPath.Of(form[AlarmForms.FromField]) + place;
    }
}

/// <summary>Where a form may send the browser afterwards: pages of ours only, never another site.</summary>
internal static class LocalPath
{
    /// <summary>The path when it is one of this site, else "/". Kept to characters that can neither leave the site nor break a header.</summary>
    public static string Of(string? wanted) =>
        wanted is ['/', ..] && !wanted.StartsWith("//", StringComparison.Ordinal) && wanted.Length <= 300 && wanted.All(IsPlain) ? wanted : "/";

    private static bool IsPlain(char one) => char.IsAsciiLetterOrDigit(one) || one is '/' or '-' or '_' or '.' or '?' or '=' or '&' or '%' or ':';
}

/// <summary>Remembers in the browser the name that a person gave, so that it is asked for once.</summary>
internal static class NameCookie
{
    public const string Name = "vatwatch.name";

    /// <summary>Keeps a name for a year.</summary>
    public static void Remember(string by, HttpContext context) => context.Response.Cookies.Append(Name, by, new()
    {
        HttpOnly = true,
        SameSite = SameSiteMode.Lax,
        Secure = context.Request.IsHttps,
        MaxAge = TimeSpan.FromDays(365),
    });
}
