namespace VatWatch.Science.Dosing;

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
