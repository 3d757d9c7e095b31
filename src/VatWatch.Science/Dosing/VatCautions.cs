using VatWatch.Science.Heat;

namespace VatWatch.Science.Dosing;

/// <summary>What to mind at any warm, alkaline vat.</summary>
public static class VatCautions
{
    // Above about 43 °C hot liquor hurts; from here the caution stands.
    private const double PainfulC = 43;

    public const string SheetFirst =
        "Read the supplier's safety data sheet for the pack in your hand first; it goes before everything said here, and sheets differ.";

    public const string Eyes =
        "A splash in the eye: rinse at once with plenty of water for at least 15 minutes, lids open, and go on rinsing on the way to a doctor.";

    /// <summary>Those that hang on the temperature of the liquor, °C from 0 to 100.</summary>
    public static IEnumerable<string> At(double temperatureC)
    {
        yield return "Pull the heater's plug before you reach into the vat.";
        yield return "A vat that stood closed for long: air the room first, lift the far edge of the lid, away from your face, and never lean in.";
        if (temperatureC < PainfulC)
            yield break;

        yield return ScaldTime.At(temperatureC).Words is { } time
            ? $"Scald: liquor of {InWords.Temperature(temperatureC)} burns adult skin {time}, a child's sooner."
            : $"Scald: liquor of {InWords.Temperature(temperatureC)} is painful and burns with long contact, a child's skin sooner.";
    }
}

/// <summary>What to mind with soda ash. The supplier's safety data sheet goes before all of it.</summary>
internal static class AlkaliCautions
{
    // Below this the sulfite that spent reducing agent leaves begins to take up acid, pH; near 7 it gives off sulfur dioxide.
    private const double SpentPh = 8;

    public static IEnumerable<string> For(FibreLimit fibre, double ph, double targetPh)
    {
        yield return VatCautions.SheetFirst;
        if (fibre.IsProtein)
            yield return OnProtein(targetPh);

        yield return "Sealed goggles, alkali-proof gloves and an apron: soda ash, dry or dissolved, hurts eyes and makes floors slippery. Weigh it low and out of the draught.";
        yield return "Dissolve each portion in warm water first and pour that into the vat, a little at a time while stirring gently; never pour water onto the solid.";
        yield return "Keep it away from aluminium and zinc, where it sets hydrogen free.";
        yield return "Never correct with acid or vinegar, and let no bleach or peroxide near: with reducing agent in the liquor they set poisonous gas free or react violently.";
        if (ph < SpentPh)
            yield return "Below pH 8 the alkali is spent, and near pH 7 a liquor with spent reducing agent gives off sulfur dioxide: air the room before bending over the vat.";

        yield return VatCautions.Eyes;
    }

    private static string OnProtein(double targetPh)
    {
        const string Harm = "Alkali harms wool, silk and hair, the more the higher the pH, the heat and the time: keep the goods out until the pH is read again, keep dips short. An acid rinse comes only after airing and rinsing in plain water, and never over the vat: acid and what is left of the reducing agent give off gas.";
        return targetPh > FibreLimit.WoolPh
            ? $"{Harm} {InWords.Ph(targetPh)} is above the {InWords.Ph(FibreLimit.WoolPh)} that practice sets for wool; silk is held to {InWords.Ph(FibreLimit.SilkPh)}."
            : Harm;
    }
}

/// <summary>What to mind with a reducing agent. The supplier's safety data sheet goes before all of it.</summary>
public static class ReducerCautions
{
    private static readonly string[] Sulfur =
    [
        "Add the powder to the liquor, a little at a time while stirring gently; never pour water onto the powder.",
        "Never mix it with acid (vinegar, citric acid, anything to lower pH): it gives off sulfur dioxide and can give off hydrogen sulfide. No probe of the vat smells gas.",
        "Never let it meet bleach, peroxide, percarbonate, nitrate or permanganate: the reaction is violent.",
        "Never close wet powder, a fresh solution or a warm vat gas-tight: pressure builds up.",
        "Sealed goggles, alkali-proof gloves, an apron, and a mask as the sheet says; weigh it low, out of the draught, with moving air across the vat.",
        "Powder that is warm, smoking or discoloured: leave it, air the place, call the fire service.",
    ];

    public static IEnumerable<string> For(ReducerKind kind)
    {
        yield return VatCautions.SheetFirst;
        foreach (var sentence in OfSubstance(kind))
            yield return sentence;

        yield return VatCautions.Eyes;
    }

    private static string[] OfSubstance(ReducerKind kind) => kind switch
    {
        _ when kind == ReducerKind.ThioureaDioxide =>
        [
            "Damp or long warm thiourea dioxide heats itself and throws off sulfur dioxide, ammonia, carbon monoxide, nitrogen oxides and hydrogen sulfide: dry scoop, pack closed at once, "
                + "small, dry, cool, never above 50 °C (122 °F), not in a hot car nor on a shelf above a heater, away from steam.",
            .. Sulfur,
        ],
        _ when kind == ReducerKind.Dithionite =>
        [
            "A little water or moist air can set a pack of dithionite on fire: dry scoop, pack closed at once, small, dry, cool, away from heater and steam.",
            .. Sulfur,
            "Sweep up dry spills with a dry tool that cannot burn; no sawdust, no vacuum cleaner.",
        ],
        _ =>
        [
            "Slaked lime blinds: sealed goggles and a face shield, alkali-proof gloves, an apron; no draught over the powder.",
            "Add lime to the liquor, a little at a time; never pour water onto the heap.",
            "A lime vat stands at pH 11 to 12.4, for cotton and linen only: it ruins wool, silk and hair.",
            "Never correct it with acid.",
        ],
    };
}
