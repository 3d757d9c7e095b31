using VatWatch.Conditions;
using VatWatch.Probes.Simulation;
using VatWatch.Science.Heat.Model;

namespace VatWatch.Tests.Conditions.Nights;

/// <summary>Holds what was said in a night against what was true.</summary>
internal static class NightJudge
{
    /// <summary>Leads at which forecasts of the limit are compared, minutes.</summary>
    public static IReadOnlyList<int> LeadMinutes { get; } = [20, 30, 45, 60, 90, 120, 180];

    /// <summary>After a lid or a dip the losses are those of before within this time, and a diagnosis has let go.</summary>
    private static readonly TimeSpan Afterwards = TimeSpan.FromMinutes(75);

    /// <summary>Above this a stuck heater should long have been told: the second limit that the heat-balance reference suggests, °C.</summary>
    private const double TooLateC = 52;

    /// <summary>The forecast made <paramref name="lead"/> before the limit was reached; null when there was none or when something happened in between.</summary>
    public static Forecast? ForecastBefore(NightRecord night, TimeSpan lead)
    {
        if (night.LimitAt is not { } limitAt || limitAt < lead)
        {
            return null;
        }

        // A forecast cannot know of a dip, a lid or a failing thermostat to come.
        var made = limitAt - lead;
        if (night.Plan.Scenario.Acts.Any(act => act.At > made && act.At < limitAt))
        {
            return null;
        }

        return night.Looks.Last(look => look.At <= made).Said.TimeToLimit;
    }

    /// <summary>Diagnoses with nothing true behind them, one for each kind.</summary>
    public static IReadOnlyList<string> FalseDiagnoses(NightRecord night) =>
    [
        .. night.Looks.SelectMany(look => look.Said.Diagnoses.Where(said => said.Kind != DiagnosisKind.NoThermostatKnown && !IsTrue(night.Plan, said.Kind, look.At))
                .Select(said => $"night {night.Plan.Seed}: {said.Kind} at {look.At:hh\\:mm}, {look.LiquorC:0.0} °C: {said.Sentence}"))
            .DistinctBy(text => text[..text.IndexOf(" at ", StringComparison.Ordinal)]),
    ];

    /// <summary>Whether a heater that stuck took the liquor beyond what its thermostat allows; only that can be seen.</summary>
    public static bool IsStuckNight(NightRecord night) =>
        night.Plan.SticksAt is not null && night.Looks.Any(look => look.LiquorC > night.Plan.Vat.Temperature.HighC + 1);

    /// <summary>Whether the stuck heater was told before it was too late.</summary>
    public static bool WasToldInTime(NightRecord night) =>
        night.Looks.TakeWhile(look => look.LiquorC < TooLateC).Any(look => look.Said.Diagnoses.Any(said => said.Kind == DiagnosisKind.HeaterStuckOn));

    /// <summary>How far a dip truly cools the liquor, K.</summary>
    public static double DropK(NightRecord night, SimulatedAct dip)
    {
        var before = night.Looks.LastOrDefault(look => look.At < dip.At);
        var yarn = VatHeatCapacity.WetYarnJPerK(dip.Amount, 1.5 * dip.Amount, 20);
        return (before.LiquorC - night.Plan.Scenario.AmbientC) * yarn / (night.Plan.Litres * 4180 + yarn);
    }

    private static bool IsTrue(NightPlan plan, DiagnosisKind kind, TimeSpan at) => kind switch
    {
        DiagnosisKind.HeaterStuckOn => plan.SticksAt <= at,
        DiagnosisKind.LosingHeat => plan.Scenario.Acts.Any(act => act.Kind is SimulatedActKind.LidOff && act.At <= at)
            && !plan.Scenario.Acts.Any(act => act.Kind is SimulatedActKind.LidOn && act.At + Afterwards <= at),
        DiagnosisKind.ColdLoad => plan.Scenario.Acts.Any(act => act.Kind == SimulatedActKind.Dip && act.At <= at && act.At + Afterwards >= at),
        _ => false,
    };
}
