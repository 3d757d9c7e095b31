using VatWatch.Science.Heat.Model;

namespace VatWatch.Probes.Simulation;

/// <summary>How a simulated vat begins and what is done to it.</summary>
public sealed record SimulationScenario
{
    /// <summary>Speed against the wall clock, 1 to 10,000.</summary>
    public double Speed { get; init; } = 1;

    /// <summary>Seed of the noise; the same seed gives the same night.</summary>
    public int Seed { get; init; } = 1;

    /// <summary>Liquor at the start, °C.</summary>
    public double StartC { get; init; } = 18;

    /// <summary>Room, °C.</summary>
    public double AmbientC { get; init; } = 18;

    /// <summary>Heater, W.</summary>
    public double HeaterWatts { get; init; } = 1500;

    /// <summary>Where a thermostat switches off, °C; null for a heater that is never switched off.</summary>
    public double? ThermostatC { get; init; }

    /// <summary>Whether a lid lies on the vat.</summary>
    public bool Lid { get; init; } = true;

    /// <summary>What is wrapped round the vat.</summary>
    public VatInsulation Insulation { get; init; } = VatInsulation.ReflectiveWrap;

    /// <summary>How far the supply lets the heater's power swing to either side, as a share; a slow wave of 3 h.</summary>
    public double MainsSwing { get; init; }

    /// <summary>How far the room swings to either side in a day, K; coldest 12 h after the start.</summary>
    public double RoomSwingK { get; init; }

    /// <summary>What is done to the vat, or goes wrong, in order of time.</summary>
    public IReadOnlyList<SimulatedAct> Acts { get; init; } = [];

    /// <summary>Indigo in the bath, g per litre.</summary>
    public double IndigoGramsPerLitre { get; init; } = 1.0;

    /// <summary>Soda ash that went in, g per litre.</summary>
    public double SodaAshGramsPerLitre { get; init; } = 2.0;

    /// <summary>Thiourea dioxide given at the start, g per litre.</summary>
    public double ReducerGramsPerLitre { get; init; } = 0.35;
}
