namespace VatWatch.Conditions;

/// <summary>The words of <see cref="VatState"/> as pages, topics and files write them.</summary>
public static class VatStateText
{
    /// <summary>For example "too hot".</summary>
    public static string Word(this VatState state) => state switch
    {
        VatState.Warming => "warming",
        VatState.Ready => "ready",
        VatState.Resting => "resting",
        VatState.TooCold => "too cold",
        VatState.TooHot => "too hot",
        VatState.Weak => "weak",
        VatState.Oxidised => "oxidised",
        VatState.AlkaliLow => "alkali low",
        VatState.AlkaliHigh => "alkali high",
        _ => "unknown",
    };

    /// <summary>The state of a word; a word that this version does not know is <see cref="VatState.Unknown"/>.</summary>
    public static VatState Parse(string word) => States.GetValueOrDefault(word, VatState.Unknown);

    private static readonly Dictionary<string, VatState> States = Enum.GetValues<VatState>().ToDictionary(state => state.Word());
}
