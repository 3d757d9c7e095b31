namespace VatWatch.Conditions.Stored;

/// <summary>The worked-out numbers of a condition as programs get them, by topic and by HTTP. SI units, in the names; what is not known is null.</summary>
/// <param name="Heat">What was learned of the vat's heat.</param>
/// <param name="Margin">How far the liquor lies from half reduced.</param>
/// <param name="FromGoodDays">How far it lies from its good days.</param>
/// <param name="Recoveries">How it came back after each dip since the last addition, oldest first.</param>
/// <param name="Diagnoses">What seems wrong, weightiest first.</param>
public sealed record ConditionFigures(
    HeatFigures? Heat,
    MarginFigures? Margin,
    GoodDaysFigures? FromGoodDays,
    IReadOnlyList<RecoveryFigures> Recoveries,
    IReadOnlyList<DiagnosisFigures> Diagnoses)
{
    public static ConditionFigures Of(VatCondition condition) => new(
        condition.Heat is { } heat
            ? new(
                heat.HeaterOn,
                heat.HeaterPower.Watts.Rounded(0),
                heat.HeaterPower.Sigma.Rounded(0),
                heat.Loss.WattsPerKelvin.Rounded(2),
                heat.Loss.Sigma.Rounded(2),
                Math.Min(heat.PlateauC, heat.BoilingC).Rounded(1))
            : null,
        condition.Margin is { } margin
            ? new(
                margin.Millivolts.Rounded(1),
                margin.UncertaintyMillivolts.Rounded(1),
                margin.MidpointMillivolts.Rounded(1),
                (100 * margin.ReducedShare).Rounded(1),
                margin.Extrapolated)
            : null,
        condition.FromGoodDays is { } away
            ? new(away.OrpMillivolts.Rounded(1), away.OrpSpreads.Rounded(2), away.Ph.Rounded(3), away.PhSpreads.Rounded(2))
            : null,
        [.. condition.Recoveries.Select(one => new RecoveryFigures(
            one.At.Utc,
            one.BeforeMillivolts.Rounded(1),
            one.RiseMillivolts.Rounded(1),
            one.Time is { } time ? time.TotalMinutes.Rounded(1) : null,
            one.ShortfallMillivolts.Rounded(1)))],
        [.. condition.Diagnoses.Select(one => new DiagnosisFigures(one.Kind, one.Probe?.Value, one.Since?.Utc, one.Sentence.In(condition.Units)))]);
}

/// <summary>What was learned of a vat's heat.</summary>
/// <param name="HeaterOn">Whether the heater heats; null when not known.</param>
/// <param name="PowerW">Heater power that ends up in the liquor.</param>
/// <param name="PowerSigmaW">Its standard deviation.</param>
/// <param name="LossWPerK">Loss coefficient, evaporation counted.</param>
/// <param name="LossSigmaWPerK">Its standard deviation.</param>
/// <param name="PlateauC">Where the liquor ends with the heater on; the boiling point at the altitude where nothing but boiling holds it.</param>
public sealed record HeatFigures(bool? HeaterOn, double? PowerW, double? PowerSigmaW, double? LossWPerK, double? LossSigmaWPerK, double? PlateauC);

/// <summary>How far a liquor lies from half reduced.</summary>
/// <param name="Millivolts">ORP less the midpoint of indigo; below 0 mostly reduced.</param>
/// <param name="UncertaintyMillivolts">Either way.</param>
/// <param name="MidpointMillivolts">The midpoint at this pH and temperature, against Ag/AgCl 3 M KCl.</param>
/// <param name="ReducedPercent">Index of the indigo that is reduced; not an assay.</param>
/// <param name="Extrapolated">Whether it goes outside what the sources vouch for.</param>
public sealed record MarginFigures(double? Millivolts, double? UncertaintyMillivolts, double? MidpointMillivolts, double? ReducedPercent, bool Extrapolated);

/// <summary>How far a vat is from its good days.</summary>
/// <param name="OrpMillivolts">ORP less that of good days at the same pH and temperature.</param>
/// <param name="OrpSpreads">That in spreads of the good days.</param>
/// <param name="Ph">pH less that of good days.</param>
/// <param name="PhSpreads">That in spreads of the good days.</param>
public sealed record GoodDaysFigures(double? OrpMillivolts, double? OrpSpreads, double? Ph, double? PhSpreads);

/// <summary>How a vat came back after a dip or an addition.</summary>
/// <param name="At">When it was disturbed, UTC.</param>
/// <param name="BeforeMillivolts">ORP before.</param>
/// <param name="RiseMillivolts">How far it rose at most.</param>
/// <param name="Minutes">Until it was back; null when it did not come back.</param>
/// <param name="ShortfallMillivolts">How far from before it settled.</param>
public sealed record RecoveryFigures(DateTimeOffset At, double? BeforeMillivolts, double? RiseMillivolts, double? Minutes, double? ShortfallMillivolts);

/// <summary>What seems wrong.</summary>
/// <param name="Probe">The probe it is about; null when it is about the vat.</param>
/// <param name="Since">When it began, UTC; null when not known.</param>
/// <param name="Text">Why, as a sentence in the dyer's units.</param>
public sealed record DiagnosisFigures(DiagnosisKind Kind, string? Probe, DateTimeOffset? Since, string Text);
