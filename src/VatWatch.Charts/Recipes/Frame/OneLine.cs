namespace VatWatch.Charts.Recipes.Frame;

/// <summary>Free text made fit for one line of a picture or page.</summary>
internal static class OneLine
{
    /// <summary>
    /// The text with every line break, control character, half surrogate and non-character as a space: they have no glyph, and XML 1.0
    /// (production Char) allows none of them.
    /// </summary>
    public static string Of(string text)
    {
        var characters = text.ToCharArray();
        for (var i = 0; i < characters.Length; i++)
        {
            if (i + 1 < characters.Length && char.IsSurrogatePair(characters[i], characters[i + 1]))
                i++;
            else if (char.IsControl(characters[i]) || char.IsSurrogate(characters[i]) || characters[i] is '\u2028' or '\u2029' or '\ufffe' or '\uffff')
                characters[i] = ' ';
        }

        return new string(characters);
    }
}
