using System.Text;
using VatWatch.Vats.Configuration;

namespace VatWatch.Daemon.Verbs.Init;

/// <summary>One thing that is asked for, on the terminal or by a flag.</summary>
/// <param name="Flag">The flag that answers it.</param>
/// <param name="Wanted">What a sentence asks for after a bad answer.</param>
/// <param name="Usual">Taken for an empty line; null when something must be written.</param>
/// <param name="Accepts">Turns what was written into what is kept; null when it will not do.</param>
internal sealed record InitQuestion(string Flag, string Ask, string Wanted, string? Usual, Func<string, string?> Accepts)
{
    public static InitQuestion Display { get; } = Choice("--display", "Units: us (°F, gal, oz) or si (°C, L, g)", "us", "us", "si");

    public static InitQuestion Site { get; } = new(
        "--site", "A short name for the place, such as hill-studio; topics begin with it", ConfigNode.NameWanted, "studio", text => ConfigNode.IsName(text) ? text : null);

    public static InitQuestion Vat { get; } = new(
        "--vat", "What do you call the vat", "a name with at least one letter or digit of a to z and 0 to 9, other than daemon", "Indigo vat", text => text.Any(char.IsControl) || text.Length > 80 || IdOf(text) is "" or "daemon" ? null : text);

    public static InitQuestion Volume { get; } = new(
        "--volume", "How much liquor does it hold, such as 40 gal or 150 L", QuantityKind.Volume.Wanted(1, 10_000), null, text => QuantityKind.Volume.TryParse(Typed.Quantity(text), out var litres) && litres is >= 1 and <= 10_000 ? Typed.Quantity(text) : null);

    public static InitQuestion Fibre { get; } = new(
        "--fibre", "What is dyed: protein (wool, silk) or cellulose (cotton, linen)", Typed.FibreWanted, null, text => Typed.FibreOf(text)?.Word());

    public static InitQuestion Reducer { get; } = Choice(
        "--reducer", "Reducing agent: thiourea-dioxide, dithionite, fructose or fermentation", "thiourea-dioxide", "thiourea-dioxide", "dithionite", "fructose", "fermentation");

    /// <summary>A name for topics made from a name for people: "Madder Lane vat" gives "madder-lane-vat"; empty when nothing is left.</summary>
    public static string IdOf(string name)
    {
        var id = new StringBuilder();
        foreach (var letter in name.ToLowerInvariant())
        {
            if (letter is >= 'a' and <= 'z' or >= '0' and <= '9')
            {
                id.Append(letter);
            }
            else if (id.Length > 0 && id[^1] != '-')
            {
                id.Append('-');
            }
        }

        return id.ToString(0, Math.Min(id.Length, 40)).Trim('-');
    }

    private static InitQuestion Choice(string flag, string ask, string? usual, params string[] words) =>
        new(flag, ask, $"one of {string.Join(", ", words)}", usual, text => words.FirstOrDefault(word => word.Equals(text, StringComparison.OrdinalIgnoreCase)));
}
