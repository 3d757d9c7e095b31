namespace VatWatch.Nights.Scenes;

/// <summary>What happens in a made-up log.</summary>
internal enum NightKind
{
    /// <summary>Three evenings of a sound vat with a thermostat.</summary>
    HealthyThermostat,

    /// <summary>A heater just strong enough, on all night.</summary>
    HealthyFixed,

    /// <summary>Switched on and off by a person.</summary>
    HealthyByHand,

    /// <summary>A sound vat with a probe of large steps or a slow one.</summary>
    HealthyCoarse,

    /// <summary>Heat in equals heat out, near the middle of the band.</summary>
    StandsStill,

    /// <summary>The thermostat's contact is welded from the first evening on.</summary>
    StuckFromStart,

    /// <summary>It welds after two sound nights.</summary>
    StuckAfterNights,

    /// <summary>A heater without thermostat that nobody switches off.</summary>
    LeftOn,

    /// <summary>The element burns out, or never was whole, in the evening's warm-up.</summary>
    HeaterFails,

    /// <summary>Two sound nights, then one of two elements is gone.</summary>
    HalfPower,

    /// <summary>The breaker goes while a thermostat holds the vat in its band.</summary>
    BreakerAtNight,

    /// <summary>The probe hangs beside the vat from the start; the heater is on.</summary>
    ProbeInAir,

    /// <summary>The probe falls out of the liquor in the night.</summary>
    ProbeFallsOut,

    /// <summary>Two sound nights, then the lid is left off.</summary>
    LidLeftOff,

    /// <summary>The thermometer repeats one value while the liquor is heated past its limit.</summary>
    FrozenHeating,

    /// <summary>The command says off, the relay stays closed.</summary>
    RelayWelded,

    /// <summary>Two evenings switched off by hand near one warmth, and forgotten on the third.</summary>
    ByHandThenForgotten,

    /// <summary>Cold water goes into a warm vat.</summary>
    TopUp,

    /// <summary>Air gets in and burns the reducing agent.</summary>
    RedoxRises,

    /// <summary>A day of dips from which the vat recovers fully.</summary>
    DipDay,

    /// <summary>Dips use the reducing agent up.</summary>
    Depletion,

    /// <summary>The ORP electrode drifts; nothing happens in the liquor.</summary>
    ElectrodeDrift,
}

/// <summary>Which seed is which kind: any thirty seeds in a row hold every kind in the same shares.</summary>
internal static class NightKinds
{
    private static readonly NightKind[] Thirty =
    [
        NightKind.HealthyThermostat, NightKind.StuckFromStart, NightKind.RedoxRises, NightKind.HeaterFails, NightKind.HealthyCoarse,
        NightKind.StuckAfterNights, NightKind.ProbeInAir, NightKind.DipDay, NightKind.LeftOn, NightKind.HealthyByHand,
        NightKind.HealthyThermostat, NightKind.TopUp, NightKind.BreakerAtNight, NightKind.Depletion, NightKind.FrozenHeating,
        NightKind.StandsStill, NightKind.StuckFromStart, NightKind.RelayWelded, NightKind.ElectrodeDrift, NightKind.HalfPower,
        NightKind.HealthyThermostat, NightKind.LeftOn, NightKind.ProbeFallsOut, NightKind.HealthyFixed, NightKind.ByHandThenForgotten,
        NightKind.RedoxRises, NightKind.ProbeInAir, NightKind.HealthyCoarse, NightKind.LidLeftOff, NightKind.StuckAfterNights,
    ];

    public static int Period => Thirty.Length;

    public static NightKind Of(int seed) => Thirty[seed % Thirty.Length];
}
