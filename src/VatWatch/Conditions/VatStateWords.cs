namespace VatWatch.Conditions;

/// <summary>The words of <see cref="VatState"/> as pages, topics and files write them.</summary>
public static class VatStateWords
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
}
