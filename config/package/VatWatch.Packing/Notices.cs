using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;

namespace VatWatch.Packing;

/// <summary>One text with the makers and terms of every package that is shipped. A text that several packages bring stands in it once.</summary>
internal static partial class Notices
{
    private const string Head = """
        What VatWatch brings with it, who made it, and under which terms. Made from the packages themselves when the program was published.
        The fonts and the script of the charts are inside the program; their terms are in the folder licences beside this file.

        """;

    public static string Write(IEnumerable<NuGetPackage> packages)
    {
        var texts = new Dictionary<string, int>(StringComparer.Ordinal);
        var notices = new StringBuilder(Head);
        foreach (var package in packages)
        {
            List<string> terms = [.. package.Texts.Select(text => text.Text)];
            if (!package.Texts.Any(text => LicenceFile().IsMatch(text.File)))
            {
                terms.Add(Standard(package));
            }

            notices.Append(CultureInfo.InvariantCulture, $"\n{package.Name.Id} {package.Name.Version}\n    Licence: {package.Licence}\n    Copyright: {package.Copyright}\n");
            notices.Append(package.Home.Length > 0 ? $"    Home: {package.Home}\n" : "").Append(CultureInfo.InvariantCulture, $"    Texts: {string.Join(", ", terms.Select(Number))}\n");
        }

        foreach (var (text, number) in texts.OrderBy(text => text.Value))
        {
            notices.Append(CultureInfo.InvariantCulture, $"\n{new string('=', 72)}\nText {number}\n\n{text}\n");
        }

        return notices.ToString();

        int Number(string text) => texts.TryGetValue(text, out var number) ? number : texts[text] = texts.Count + 1;
    }

    /// <summary>The text of the terms of a package that brings only their name; where it leaves a choice, the first whose text is in the folder Terms.</summary>
    private static string Standard(NuGetPackage package)
    {
        var chosen = package.Licence.Split(" OR ").Select(licence => typeof(Notices).Assembly.GetManifestResourceStream($"{licence}.txt")).FirstOrDefault(text => text is not null)
            ?? throw new InvalidDataException($"{package.Name.Id} is under {package.Licence}, whose text is not in Terms; wanted it there");
        using var reader = new StreamReader(chosen);
        return reader.ReadToEnd().Trim();
    }

    [GeneratedRegex("licen[cs]e|copying", RegexOptions.IgnoreCase | RegexOptions.CultureInvariant)]
    private static partial Regex LicenceFile();
}
