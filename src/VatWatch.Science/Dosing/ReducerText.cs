namespace VatWatch.Science.Dosing;

/// <summary>What a dose of reducing agent rests on.</summary>
internal static class ReducerText
{
    // Studio band and rule of the trade, °C: below it the agent acts slowly, above it reducing agent is lost fast.
    private const double CoolC = 38;
    private const double HotC = 49;

    // Strong end of the trade's vats, g/L of dye.
    private const double StrongGramsPerLitre = 10;

    /// <summary>What was asked, said back.</summary>
    public static string Understood(ReducerDoseRequest request) =>
        $"Asked for: {request.Kind.Agent.Substance.Name} for {InWords.Mass(request.DyeGrams)} of dye in {InWords.Volume(request.VolumeL)} of liquor at {InWords.Temperature(request.TemperatureC)}.";

    public static IEnumerable<string> Assumptions(ReducerDoseRequest request, MassRange oxygen, MassRange burnt, MassRange? sodaAsh)
    {
        if (request.DyeGrams > 0)
        {
            yield return Strength(request);
            yield return Excess(request);
        }

        if (request.Kind.IsMadeByRatio && request.DyeGrams > 0)
            yield return $"With it goes slaked lime, {InWords.Mass(ReducerKind.LimeGramsPerGramDye * request.DyeGrams)}: the trade's ratio by weight of indigo 1, lime 2, fructose 3. "
                + "What a sugar yields in hot alkali is not fixed.";

        yield return request.Assay < 1
            ? $"The reducing agent as weighed is {InWords.Plain(100 * request.Assay)} % pure{(request.AgentAssay is null ? ", as it is sold; old or damp powder is weaker" : "")}."
            : "The reducing agent is fresh and dry and counted as pure; old or damp powder is weaker.";
        yield return OxygenTaken(oxygen, burnt);
        if (oxygen.Extrapolated)
            yield return $"Extrapolated: {InWords.Temperature(request.TemperatureC)} is hotter than the oxygen table, which ends at {InWords.Temperature(40)}; "
                + "the error looks like 1 % at most up to 60 °C.";

        foreach (var sentence in Eaten(sodaAsh))
            yield return sentence;

        foreach (var sentence in OfTheVat(request))
            yield return sentence;

    }

    public static string AlreadyThere(Sharpening sharpening) =>
        $"the ORP is {sharpening.FromMillivolts:0} mV and {sharpening.ToMillivolts:0} mV is wanted: it is there or below, so add no reducing agent; wanted an ORP above that.";

    public static IEnumerable<string> Sharpened(ReducerDoseRequest request, Sharpening sharpening)
    {
        yield return $"Asked for: {request.Kind.Agent.Substance.Name} in {InWords.Volume(request.VolumeL)} of liquor at {InWords.Temperature(request.TemperatureC)}, from {sharpening.FromMillivolts:0} to {sharpening.ToMillivolts:0} mV.";
        yield return $"Theory: a vat at its mark of {sharpening.WeakMillivolts:0} mV is weak by {InWords.Mass(request.DyeGrams)} of blue dye and a day's air; {request.Kind.UsualExcess} times what they ask for takes it "
            + $"{Sharpening.UsualFallMillivolts} mV below, and the ORP falls with the logarithm of the agent.";
    }

    public static IEnumerable<string> Eaten(MassRange? sodaAsh) => sodaAsh is { } eaten
        ? [$"Spent, the dose eats between {InWords.Mass(eaten.LowGrams)} and {InWords.Mass(eaten.HighGrams)} of soda ash: the pH will fall; read it after the wait."]
        : [];

    public static IEnumerable<string> OfTheVat(ReducerDoseRequest request)
    {
        if (request.TemperatureC < CoolC)
            yield return $"At {InWords.Temperature(request.TemperatureC)} the agent acts slowly; the wait is meant for {InWords.Temperature(CoolC)} to {InWords.Temperature(HotC)}.";

        if (request.TemperatureC > HotC)
            yield return $"Above {InWords.Temperature(HotC)} reducing agent is lost faster, and more will be needed than this.";

        if (request.DyeGrams / request.VolumeL > StrongGramsPerLitre)
            yield return $"{InWords.Strength(request.DyeGrams / request.VolumeL)} of dye is more than vats usually hold ({InWords.Strength(StrongGramsPerLitre)} at most): check volume and dye.";

        yield return "The figures are estimates: give the first portion, wait covered and still, look at the liquor and the ORP, then give the next.";
    }

    private static string Strength(ReducerDoseRequest request) => request.DyeAssay is { } assay
        ? $"{InWords.Plain(100 * assay)} % of the dye is indigo."
        : "The dye is counted as pure indigo, as no strength was given; natural indigo holds less than half, synthetic over 95 %.";

    private static string Excess(ReducerDoseRequest request) => (request.Excess, request.Kind.IsMadeByRatio) switch
    {
        ({ } excess, _) => $"{InWords.Plain(excess)} times what theory asks for the dye; the small figure is theory alone.",
        (null, true) => "The dose goes by the trade's ratio to the dye as weighed; the small figure is theory alone.",
        _ => $"The dose is {InWords.Plain(request.Kind.UsualExcess)} times what theory asks for the dye, as recipes do, and what a day's air burns; the small figure is theory, with the air in the best case.",
    };

    private static string OxygenTaken(MassRange oxygen, MassRange burnt) => oxygen.HighGrams <= 0
        ? "No oxygen is counted: fresh water, an open vat or dry yarn take more."
        : $"{Range(oxygen)} g of oxygen is counted, which burns {Range(burnt)} g of the agent; give that share first, before the dye. The large figure is in the dose.";

    private static string Range(MassRange range)
    {
        var (low, high) = (InWords.Plain(range.LowGrams), InWords.Plain(range.HighGrams));
        return low == high ? low : $"{low} to {high}";
    }
}
