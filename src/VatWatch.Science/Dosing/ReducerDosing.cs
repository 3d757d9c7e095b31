using VatWatch.Science.Heat.Model;
using VatWatch.Science.Indigo;
using VatWatch.Science.Oxygen;

namespace VatWatch.Science.Dosing;

/// <summary>
/// Reducing agent for a mass of dye and for oxygen, by the electron balance. The low end is theory, with oxygen in the best case; the dose takes the excess that was asked for, else the
/// trade's, and the sure case for oxygen.
/// </summary>
public static class ReducerDosing
{
    /// <summary>Answers; never throws on figures, whatever they are.</summary>
    public static DoseAnswer Answer(ReducerDoseRequest request)
    {
        if (Fault(request) is { } fault)
            return DoseAnswer.Refuse(fault);

        var oxygen = OxygenOf(request);
        var burnt = ReducerNeed.ForOxygen(request.Kind.Agent, oxygen, request.Assay);
        var dye = ForDye(request);
        var grams = dye.Grams + burnt.HighGrams;
        if (grams <= 0)
            return DoseAnswer.Refuse("neither dye nor oxygen was named; wanted a mass of dye above 0 g, or oxygen to clear.");

        if (request.Sharpening is { } sharpening)
            return Sharpen(request, sharpening, grams);

        var low = dye.Low + burnt.LowGrams;
        return DoseAnswer.Of(new(
            request.Kind.Agent.Substance.Name,
            grams,
            low,
            grams,
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
        return kind.Agent is { AlkaliByOxygen: { } air, AlkaliByDye: { } dye }
            ? new(Wanted.NotNegative(lowGrams, "g") * air.SodaAshGramsPerGram, Wanted.NotNegative(highGrams, "g") * dye.SodaAshGramsPerGram)
            : null;
    }

    /// <summary>Mean of a quarter of an hour of one electrode against another such mean, mV; a judgement.</summary>
    public const double RepeatabilityMillivolts = 3;

    /// <summary>How far the theory of a sharpening may be off by the two readings, as a logarithm.</summary>
    public static double ReadingSigma(Sharpening sharpening)
    {
        var further = sharpening with { ToMillivolts = sharpening.ToMillivolts - RepeatabilityMillivolts };
        return sharpening.Share > 0 ? Math.Log(further.Share / sharpening.Share) : double.PositiveInfinity;
    }

    private static DoseAnswer Sharpen(ReducerDoseRequest request, Sharpening sharpening, double usualGrams)
    {
        var (theory, factor) = (usualGrams * sharpening.Share, request.Factor);
        if (theory <= 0)
            return DoseAnswer.Refuse(ReducerText.AlreadyThere(sharpening));

        var range = factor.Range(theory, ReadingSigma(sharpening));
        var grams = theory * factor.Times;
        return DoseAnswer.Of(new(
            request.Kind.Agent.Substance.Name,
            grams,
            range.LowGrams,
            range.HighGrams,
            DoseAdvice.FirstPortion(grams, request.VolumeL, factor.FirstPortion(range.LowGrams)),
            DoseWait.ForReducer,
            [.. ReducerText.Sharpened(request, sharpening), LearnedText.Of(factor, theory), .. ReducerText.Eaten(SodaAshEaten(request.Kind, range.LowGrams, range.HighGrams)), .. ReducerText.OfTheVat(request)],
            [.. ReducerCautions.For(request.Kind), .. VatCautions.At(request.TemperatureC)])
        {
            TheoryGrams = theory,
            PastDoses = factor.Doses,
        });
    }

    private static string? Fault(ReducerDoseRequest request) => Possible.FirstFault(
        Possible.Volume(request.VolumeL),
        Possible.Temperature(request.TemperatureC),
        Possible.Mass("dye", request.DyeGrams),
        Possible.Share("strength of the dye", request.DyeAssay ?? 1),
        Possible.Share("strength of the reducing agent", request.Assay),
        Possible.Excess(request.Excess ?? 1),
        Possible.Mass("oxygen", request.FurtherOxygen?.LowGrams ?? 0),
        Possible.Mass("oxygen", request.FurtherOxygen?.HighGrams ?? 0),
        Possible.Dye(request.DyeGrams, request.VolumeL));

    private static MassRange OxygenOf(ReducerDoseRequest request)
    {
        var further = request.FurtherOxygen ?? (request.IsUsual ? DayOfDyeing(request) : default);
        if (!request.ClearOxygen)
            return further;

        var fill = OxygenLoad.InFillWaterGrams(request.VolumeL, request.TemperatureC);
        return further + new MassRange(fill.Value, fill.Value, fill.Extrapolated);
    }

    /// <summary>Air through the surface of a vat about as deep as it is wide, open for two hours of dipping (common practice, no source).</summary>
    private static MassRange DayOfDyeing(ReducerDoseRequest request)
    {
        const double dippingHours = 2;
        var surface = VatGeometry.OfProportion(request.VolumeL, 1).SurfaceM2;
        return OxygenLoad.ThroughSurfacePerDay(
            [SurfaceHours.In(SurfaceState.CoveredStill, 24 - dippingHours), SurfaceHours.In(SurfaceState.Dipping, dippingHours)], surface, request.TemperatureC);
    }

    private static (double Low, double Grams) ForDye(ReducerDoseRequest request)
    {
        var kind = request.Kind;
        var need = ReducerNeed.ForDye(kind.Agent, request.DyeGrams, request.DyeAssay ?? 1, request.Excess ?? kind.UsualExcess, request.Assay);
        if (request.Excess is not null || !kind.IsMadeByRatio)
            return (need.LowGrams, need.HighGrams);

        // The ratio goes by the dye as weighed, whatever its strength.
        var byRatio = request.DyeGrams * ReducerKind.FructoseGramsPerGramDye / request.Assay;
        return (need.LowGrams, byRatio);
    }
}
