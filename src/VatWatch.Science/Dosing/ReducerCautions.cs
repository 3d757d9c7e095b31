namespace VatWatch.Science.Dosing;

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
