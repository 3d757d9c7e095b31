using VatWatch.Science.Dosing;
using VatWatch.Sessions.Entries;

namespace VatWatch.Ledger;

/// <summary>What each line of a balance rests on, in sentences, gathered while the log book is gone through.</summary>
internal sealed class LedgerNotes(LedgerFacts facts)
{
    private readonly List<string> _read = [];
    private readonly Dictionary<string, string> _probed = [];
    private string _made = $"Nobody wrote when it was made: taken as full, {facts.Units.Volume(facts.Vat.VolumeLitres)} of a working vat of medium strength.";
    private double _water;
    private double _drawn;
    private double _stock;
    private double _dyeGrams;
    private double _taken;
    private double _agent;
    private double _alkali;
    private int _dips;
    private int _unweighed;
    private int _unsaidStock;
    private int _unsaidDye;

    public IReadOnlyList<string> Liquor =>
    [
        _made,
        .. Said(_water + _stock > 0, $"{Volume(_water + _stock)} were poured in{(_drawn > 0 ? $" and {Volume(_drawn)} drawn off" : "")}."),
        .. Said(_water + _stock == 0 && _drawn > 0, $"{Volume(_drawn)} were drawn off."),
        "Evaporation through the lid and what wet goods carry away are estimated.",
    ];

    public IReadOnlyList<string> Alkalinity =>
    [
        .. Said(!IsMade, _made),
        .. Said(_alkali > 0, $"{Mass(_alkali)} of alkali were added."),
        .. Reading("ph", "alkalinity"),
        .. Probed("pH"),
        "Reducing agent that air burns eats alkali, and the liquor takes carbon dioxide from the air.",
    ];

    public IReadOnlyList<string> Carbonate =>
    [
        .. Said(!IsMade, _made),
        .. Said(_alkali > 0, $"{Mass(_alkali)} of alkali were added."),
        "Soda ash brings it, lime takes it out as chalk, and the air gives carbon dioxide.",
    ];

    public IReadOnlyList<string> Reducer => facts.Reducer is null
        ? ["A ferment reduces this vat; it is not weighed."]
        :
        [
            .. Said(!IsMade, _made),
            .. Said(_agent > 0, $"{Mass(_agent)} of reducing agent were added{(_dyeGrams > 0 ? "; dye that went in unreduced took its part" : "")}."),
            .. Reading("orp"),
            .. Probed("ORP"),
            "What air burns follows from the surface, the warmth and the dips, to within a factor of two.",
        ];

    /// <summary>What the vat's past doses say, where any does.</summary>
    public static IEnumerable<string> Learned(string substance, DoseFactor factor) => Said(
        factor.Doses > 0,
        $"By {factor.Doses} past {(factor.Doses == 1 ? "dose" : "doses")} this vat takes {factor.Times:0.##} times the {substance} that theory asks for.");

    public IReadOnlyList<string> Indigo(double gramsPerLitre) =>
    [
        $"That is {gramsPerLitre:0.##} g in a litre.",
        .. Said(!IsMade, _made),
        .. Said(_stock + _dyeGrams > 0, $"{Added()} went in{(_unsaidStock > 0 ? "; nobody said how strong the stock was, taken as 30 to 70 g/L" : "")}{(_unsaidDye > 0 ? "; nobody said the assay of the dye, taken as 60 to 100 %" : "")}."),
        .. Said(_dips > 0, $"{_dips} {(_dips == 1 ? "dip" : "dips")} took about {Mass(_taken)} with the goods and the liquor in them{(_unweighed > 0 ? $"; the goods of {_unweighed} were not weighed" : "")}."),
        .. Reading("indigo"),
    ];

    public void MakeAnew(SessionEntry entry)
    {
        (_water, _drawn, _stock, _dyeGrams, _taken, _agent, _alkali, _dips, _unweighed, _unsaidStock, _unsaidDye) = (0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0);
        _read.Clear();
        _made = $"Made anew on {Day(entry)} with {Volume(entry.Amount ?? facts.Vat.VolumeLitres)}.";
    }

    public void Add(SessionEntry entry)
    {
        var amount = entry.Amount ?? 0;
        switch (entry.Material)
        {
            case Material.Water:
                _water += amount;
                break;
            case Material.Stock:
                _stock += amount;
                _unsaidStock += entry.Strength is null ? 1 : 0;
                break;
            case Material.Indigo:
                _dyeGrams += amount;
                _unsaidDye += entry.Strength is null ? 1 : 0;
                break;
            case Material.ReducingAgent:
                _agent += amount;
                break;
            default:
                _alkali += amount;
                break;
        }
    }

    public void DrawOff(SessionEntry entry) => _drawn += entry.Amount ?? 0;

    public void Dip(double taken, bool weighed)
    {
        _taken += taken;
        _dips++;
        _unweighed += weighed ? 0 : 1;
    }

    /// <summary>What a probe shows now.</summary>
    public void Probe(string what, string value) => _probed[what] = $"The {what} of the last quarter of an hour was {value}.";

    public void Read(SessionEntry entry)
    {
        _read.RemoveAll(line => line.StartsWith($"{entry.Reading!.Value.Word()} ", StringComparison.Ordinal));
        _read.Add($"{entry.Reading!.Value.Word()} read by hand on {Day(entry)}: {entry.Amount:0.##}{Unit(entry.Reading.Value)}.");
    }

    private bool IsMade => _made.StartsWith("Made", StringComparison.Ordinal);

    private string Volume(double litres) => Material.Water.Amount(litres, facts.Units);

    private string Mass(double grams) => facts.Units.Mass(grams);

    private string Added() => (_stock, _dyeGrams) switch
    {
        ( > 0, > 0) => $"{Volume(_stock)} of stock and {Mass(_dyeGrams)} of dye",
        ( > 0, _) => $"{Volume(_stock)} of stock",
        _ => $"{Mass(_dyeGrams)} of dye",
    };

    private IEnumerable<string> Probed(string what) => _probed.TryGetValue(what, out var line) ? [line] : [];

    private IEnumerable<string> Reading(params string[] words) =>
        _read.Where(line => words.Any(word => line.StartsWith($"{word} ", StringComparison.Ordinal))).Select(line => line.StartsWith("ph", StringComparison.Ordinal) ? $"pH{line[2..]}" : line.StartsWith("orp", StringComparison.Ordinal) ? $"ORP{line[3..]}" : line.Capitalized());

    private static IEnumerable<string> Said(bool applies, string sentence) => applies ? [sentence] : [];

    private static string Unit(HandReading reading) => reading switch
    {
        HandReading.Indigo => " g/L",
        HandReading.Alkalinity => " meq/L",
        HandReading.Orp => " mV",
        _ => "",
    };

    private static string Day(SessionEntry entry) => entry.At.Utc.ToString("d MMM yyyy");
}
