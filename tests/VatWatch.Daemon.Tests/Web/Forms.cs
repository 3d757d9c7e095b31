using System.Net;
using System.Text.RegularExpressions;

namespace VatWatch.Daemon.Tests.Web;

/// <summary>Fills in the forms of a page as a browser without script does.</summary>
internal static partial class Forms
{
    /// <summary>The first form on a page whose address contains <paramref name="action"/>, sent with its hidden fields and the given ones.</summary>
    public static async Task<HttpResponseMessage> SubmitAsync(HttpClient browser, string page, string action, params (string Name, string Value)[] fields)
    {
        var html = await browser.GetStringAsync(page, TestContext.Current.CancellationToken);
        var form = FormPattern().Matches(html).First(match => match.Groups["action"].Value.Contains(action, StringComparison.Ordinal));
        var values = HiddenPattern().Matches(form.Value).ToDictionary(match => match.Groups["name"].Value, match => WebUtility.HtmlDecode(match.Groups["value"].Value));
        foreach (var (name, value) in fields)
        {
            values[name] = value;
        }

        return await browser.PostAsync(WebUtility.HtmlDecode(form.Groups["action"].Value), new FormUrlEncodedContent(values), TestContext.Current.CancellationToken);
    }

    [GeneratedRegex("<form[^>]*action=\"(?<action>[^\"]*)\".*?</form>", RegexOptions.Singleline)]
    private static partial Regex FormPattern();

    [GeneratedRegex("<input type=\"hidden\" name=\"(?<name>[^\"]*)\" value=\"(?<value>[^\"]*)\"")]
    private static partial Regex HiddenPattern();
}
