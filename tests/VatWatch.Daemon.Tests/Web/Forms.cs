using System.Net;
using System.Text.RegularExpressions;

namespace VatWatch.Daemon.Tests.Web;

/// <summary>Fills in the forms of a page as a browser without script does.</summary>
internal static partial class Forms
{
    /// <summary>The first form on a page that it or one of its buttons sends to an address with <paramref name="action"/> in it, sent with its hidden fields and the given ones.</summary>
    public static async Task<HttpResponseMessage> SubmitAsync(HttpClient browser, string page, string action, params (string Name, string Value)[] fields)
    {
        var (address, values) = await FillAsync(browser, page, action, fields);
        return await browser.PostAsync(address, new FormUrlEncodedContent(values), TestContext.Current.CancellationToken);
    }

    /// <summary>The same for a form that carries a file, of whose kind the sender says <paramref name="saidType"/>.</summary>
    public static async Task<HttpResponseMessage> UploadAsync(
        HttpClient browser, string page, string action, string field, byte[] file, string saidType, params (string Name, string Value)[] fields)
    {
        var (address, values) = await FillAsync(browser, page, action, fields);
        using var content = new MultipartFormDataContent();
        foreach (var (name, value) in values)
        {
            content.Add(new StringContent(value), name);
        }

        var part = new ByteArrayContent(file);
        part.Headers.ContentType = new(saidType);
        content.Add(part, field, "picture");
        return await browser.PostAsync(address, content, TestContext.Current.CancellationToken);
    }

    private static async Task<(string Address, Dictionary<string, string> Values)> FillAsync(HttpClient browser, string page, string action, (string Name, string Value)[] fields)
    {
        var html = await browser.GetStringAsync(page, TestContext.Current.CancellationToken);
        var (form, address) = FormPattern().Matches(html).SelectMany(form => ActionPattern().Matches(form.Value).Select(match => (form.Value, match.Groups["action"].Value)))
            .First(one => one.Item2.Contains(action, StringComparison.Ordinal));
        var values = HiddenPattern().Matches(form).ToDictionary(match => match.Groups["name"].Value, match => WebUtility.HtmlDecode(match.Groups["value"].Value));
        foreach (var (name, value) in fields)
        {
            values[name] = value;
        }

        return (WebUtility.HtmlDecode(address), values);
    }

    [GeneratedRegex("<form.*?</form>", RegexOptions.Singleline)]
    private static partial Regex FormPattern();

    [GeneratedRegex("action=\"(?<action>[^\"]*)\"")]
    private static partial Regex ActionPattern();

    [GeneratedRegex("<input type=\"hidden\" name=\"(?<name>[^\"]*)\" value=\"(?<value>[^\"]*)\"")]
    private static partial Regex HiddenPattern();
}
