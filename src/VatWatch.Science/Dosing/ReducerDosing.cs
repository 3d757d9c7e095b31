using VatWatch.Science.Indigo;
using VatWatch.Science.Oxygen;

namespace VatWatch.Science.Dosing;

/// <summary>
/// Reducing agent for a mass of dye and for oxygen, by the electron balance. The low end is theory, with oxygen in the best case; the dose takes the sure
/// case for oxygen; the high end adds the trade's excess where none was asked for.
/// </summary>
public static class ReducerDosing
{
    /// <summary>Answers; never throws on figures, whatever they are.</summary>
    public static DoseAnswer Answer(ReducerDoseRequest request)
    {
        ArgumentNullException.ThrowIfNull(request);
        if (Fault(request) is { } fault)
            return DoseAnswer.Refuse(fault);

        var oxygen = OxygenOf(request);
        var burnt = ReducerNeed.ForOxygen(request.Kind.Agent, oxygen, request.AgentAssay);
        var dye = ForDye(request);
        var grams = dye.Grams + burnt.HighGrams;
        if (grams <= 0)
            return DoseAnswer.Refuse("neither dye nor oxygen was named; wanted a mass of dye above 0 g, or oxygen to clear.");

        var low = dye.Low + burnt.LowGrams;
        return DoseAnswer.Of(new(
            request.Kind.Agent.Substance.Name,
            grams,
            low,
            dye.High + burnt.HighGrams,
            DoseAdvice.FirstPortion(grams, request.VolumeL),
            DoseWait.ForReducer,
            [ReducerText.Understood(request), .. ReducerText.Assumptions(request, oxygen, burnt, SodaAshEaten(request.Kind, low, grams))],
            [.. ReducerCautions.For(request.Kind), .. VatCautions.At(request.TemperatureC)]));
    }

    /// <summary>
    /// Soda ash that reducing agent eats, g, carbonate going to bicarbonate: the low mass all burnt by air, the high mass all spent on dye. Null where no
    /// route is published (sugars).
    /// </summary>
    /// <exception cref="ArgumentOutOfRangeException">A mass is below 0.</exception>
    public static MassRange? SodaAshEaten(ReducerKind kind, double lowGrams, double highGrams)
    {
        ArgumentNullException.ThrowIfNull(kind);
        return kind.Agent is { AlkaliByOxygen: { } air, AlkaliByDye: { } dye }
            ? new(Wanted.NotNegative(lowGrams, "g") * air.SodaAshGramsPerGram, Wanted.NotNegative(highGrams, "g") * dye.SodaAshGramsPerGram)
            : null;
    }

    private static string? Fault(ReducerDoseRequest request) => Possible.FirstFault(
        Possible.Volume(request.VolumeL),
        Possible.Temperature(request.TemperatureC),
        Possible.Mass("dye", request.DyeGrams),
        Possible.Share("strength of the dye", request.DyeAssay ?? 1),
        Possible.Share("strength of the reducing agent", request.AgentAssay),
        Possible.Excess(request.Excess ?? 1),
        Possible.Mass("oxygen", request.FurtherOxygen.LowGrams),
        Possible.Mass("oxygen", request.FurtherOxygen.HighGrams),
        Possible.Dye(request.DyeGrams, request.VolumeL));

    private static MassRange OxygenOf(ReducerDoseRequest request)
    {
        if (!request.ClearOxygen)
            return request.FurtherOxygen;

        var fill = OxygenLoad.InFillWaterGrams(request.VolumeL, request.TemperatureC);
        return request.FurtherOxygen + new MassRange(fill.Value, fill.Value, fill.Extrapolated);
    }

    private static (double Low, double Grams, double High) ForDye(ReducerDoseRequest request)
    {
        var kind = request.Kind;
        var need = ReducerNeed.ForDye(kind.Agent, request.DyeGrams, request.DyeAssay ?? 1, request.Excess ?? kind.UsualExcess, request.AgentAssay);
        if (request.Excess is not null)
            return (need.LowGrams, need.HighGrams, need.HighGrams);

        if (!kind.IsMadeByRatio)
            return (need.LowGrams, need.LowGrams, need.HighGrams);

        // The ratio goes by the dye as weighed, whatever its strength.
        var byRatio = request.DyeGrams * ReducerKind.FructoseGramsPerGramDye / request.AgentAssay;
        return (need.LowGrams, byRatio, byRatio);
    }
}
