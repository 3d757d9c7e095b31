using VatWatch.Sessions.Entries;

namespace VatWatch.Ledger;

/// <summary>
/// One thing that can be seen of a weak vat, with how likely each of its outcomes is for each cause, in the order of <see cref="VatCause"/>: what dyers say of these signs
/// (indigo-chemistry reference, section 5), put into figures by judgement, no source.
/// </summary>
/// <param name="Name">For sentences.</param>
/// <param name="Ask">How to find out; null for what the probes or the log book tell.</param>
/// <param name="Outcomes">The outcomes; for each cause their likelihoods add up to 1.</param>
internal sealed record Clue(string Name, string? Ask, IReadOnlyList<Outcome> Outcomes)
{
    public static Clue Warmth { get; } = new("temperature", null,
    [
        new("colder than its band", null, [0.95, 0.15, 0.15, 0.15, 0.15, 0.15]),
        new("within its band", null, [0.05, 0.85, 0.85, 0.85, 0.85, 0.85]),
    ]);

    public static Clue Ph { get; } = new("pH", null,
    [
        new("below its band", null, [0.12, 0.85, 0.2, 0.1, 0.15, 0.35]),
        new("within its band", null, [0.78, 0.12, 0.7, 0.8, 0.75, 0.35]),
        new("above its band", null, [0.1, 0.03, 0.1, 0.1, 0.1, 0.3]),
    ]);

    public static Clue Redox { get; } = new("ORP", null,
    [
        new("on its working side", null, [0.35, 0.4, 0.08, 0.85, 0.15, 0.35]),
        new("weak", null, [0.5, 0.45, 0.5, 0.12, 0.4, 0.25]),
        new("oxidised", null, [0.15, 0.15, 0.42, 0.03, 0.45, 0.4]),
    ]);

    public static Clue Dye { get; } = new("indigo by the ledger", null,
    [
        new("nearly gone", null, [0.1, 0.1, 0.1, 0.75, 0.1, 0.1]),
        new("enough", null, [0.9, 0.9, 0.9, 0.25, 0.9, 0.9]),
    ]);

    public static Clue Agent { get; } = new("reducing agent by the ledger", null,
    [
        new("nearly gone", null, [0.2, 0.2, 0.7, 0.25, 0.55, 0.2]),
        new("enough", null, [0.8, 0.8, 0.3, 0.75, 0.45, 0.8]),
    ]);

    /// <summary>What is asked of the dyer, each answered by a sign or a reading in the log book.</summary>
    public static IReadOnlyList<Clue> Asked { get; } =
    [
        new("colour of the liquor", "Look at the liquor in a clean glass, dipped from below the surface: is it clear yellow, green, milky, or blue?",
        [
            new("clear and yellow", Sign.Yellow, [0.35, 0.25, 0.05, 0.8, 0.1, 0.75]),
            new("green", Sign.Green, [0.4, 0.3, 0.35, 0.15, 0.4, 0.15]),
            new("milky", Sign.Milky, [0.1, 0.4, 0.05, 0.03, 0.05, 0.05]),
            new("blue", Sign.Blue, [0.15, 0.05, 0.55, 0.02, 0.45, 0.05]),
        ]),
        new("flower", "Stir gently and wait five minutes: does a blue-bronze flower gather on the liquor?",
        [
            new("a flower", Sign.Flower, [0.5, 0.55, 0.2, 0.2, 0.45, 0.8]),
            new("no flower", Sign.NoFlower, [0.5, 0.45, 0.8, 0.8, 0.55, 0.2]),
        ]),
        new("sheen", "Look across the still surface against the light: is there a coppery sheen?",
        [
            new("a coppery sheen", Sign.Sheen, [0.5, 0.45, 0.15, 0.35, 0.3, 0.8]),
            new("no sheen", Sign.NoSheen, [0.5, 0.55, 0.85, 0.65, 0.7, 0.2]),
        ]),
        new("pale goods", "Dip a wetted test skein for a minute and air it: does it come out pale although the liquor is yellow?",
        [
            new("pale goods from yellow liquor", Sign.Pale, [0.3, 0.35, 0.1, 0.85, 0.1, 0.05]),
            new("not that", null, [0.7, 0.65, 0.9, 0.15, 0.9, 0.95]),
        ]),
    ];

    public static Clue Strip { get; } = new("pH strip", "Dip a pH strip: what does it show beside the electrode?",
    [
        new("as the electrode", null, [0.93, 0.93, 0.93, 0.93, 0.93, 0.25]),
        new("otherwise than the electrode", null, [0.07, 0.07, 0.07, 0.07, 0.07, 0.75]),
    ]);
}

/// <summary>One outcome of a clue.</summary>
/// <param name="Words">For sentences.</param>
/// <param name="Sign">The sign that says so in the log book; null where none does.</param>
/// <param name="Likelihoods">How likely it is for each cause.</param>
internal sealed record Outcome(string Words, Sign? Sign, IReadOnlyList<double> Likelihoods);
