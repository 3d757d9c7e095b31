using System.Text.RegularExpressions;
using VatWatch.Vats.Configuration;

namespace VatWatch.Plans.Day;

/// <summary>Goods for a day: dry weight, kind, and the wished depth as a number of dips.</summary>
/// <param name="Grams">Dry weight, g; above 0.</param>
/// <param name="Kind">Of what, in the dyer's words, such as "wool".</param>
/// <param name="Dips">Dips that each piece gets; 1 to <see cref="MostDips"/>.</param>
public sealed partial record Goods(double Grams, string Kind, int Dips)
{
    /// <summary>More dips than this are a slip of the pen: dark shades take 6 to 12 (common practice, no source).</summary>
    public const int MostDips = 30;

    /// <summary>What is understood, for a sentence that refuses something else.</summary>
    public const string Wanted = "goods such as \"2 lb wool x 4 dips\" or \"500 g cotton x 6 dips\"";

    private const double MostGrams = 100_000;
    private const int LongestKind = 40;

    /// <summary>Reads goods as people write them; false when they cannot be meant.</summary>
    public static bool TryParse(string text, out Goods goods)
    {
        goods = new(1, "", 1);
        var match = Pattern().Match(text.Trim());
        if (!match.Success
            || !QuantityKind.Mass.TryParse($"{match.Groups["number"].Value} {match.Groups["unit"].Value}", out var grams)
            || !(grams is > 0 and <= MostGrams)
            || !int.TryParse(match.Groups["dips"].ValueSpan, out var dips)
            || dips is < 1 or > MostDips
            || match.Groups["kind"].Length > LongestKind)
        {
            return false;
        }

        goods = new(grams, match.Groups["kind"].Value.Trim(), dips);
        return true;
    }

    /// <summary>As it is written, for example "0.91 kg wool x 4 dips".</summary>
    public string Text(DisplayUnits units) => $"{units.Goods(Grams)} {Kind} x {Dips} {(Dips == 1 ? "dip" : "dips")}";

    [GeneratedRegex(@"^(?<number>\d+(\.\d+)?|\.\d+)\s*(?<unit>[a-z]+)\s+(?<kind>\p{L}[\p{L}\p{N} ,'-]*?)\s*[x×]\s*(?<dips>\d{1,3})(\s*dips?)?$", RegexOptions.IgnoreCase | RegexOptions.CultureInvariant)]
    private static partial Regex Pattern();
}
