using VatWatch.Plans.Warm;

namespace VatWatch.Tests.Plans;

/// <summary>Case D of the heat-balance reference: 125 L, 535,226 J/K, 3.15 W/K covered and 11 W/K open, 1440 W, room 20 °C.</summary>
internal static class ReferenceVat
{
    public const double CapacityJPerK = 535_226;

    public static VatHeat Heat { get; } = new(1440, 15, 3.15, 0.1, CapacityJPerK, 20, 5) { OpenLossWPerK = 11, RoomIsMeasured = true };

    /// <summary>The vat, whose band begins somewhere.</summary>
    public static VatDefinition From(double lowC) => new()
    {
        Id = new("case-d"),
        Name = "Case D",
        VolumeLitres = 125,
        Fibre = Fibre.Protein,
        Reducer = ReducingAgent.ThioureaDioxide,
        Temperature = new(lowC, 48, 49),
        Probes = [],
    };
}
