namespace VatWatch.Conditions.Heating.Learning;

/// <summary>
/// What is held of a vat's heat at one moment, immutable: dT/dt = u b - a (T - Tref) + c, in K and h. With a measured room Tref is the
/// room and c is 0.
/// </summary>
internal sealed record HeatEstimate
{
    /// <summary>b = P/C, K/h, and its variance.</summary>
    public required double HeatingKPerHour { get; init; }

    public required double HeatingVariance { get; init; }

    /// <summary>a = UA/C, 1/h, and its variance.</summary>
    public required double LossPerHour { get; init; }

    public required double LossVariance { get; init; }

    public required double HeatingLossCovariance { get; init; }

    /// <summary>c, K/h; 0 with a measured room.</summary>
    public double RoomKPerHour { get; init; }

    public double RoomVariance { get; init; }

    public double HeatingRoomCovariance { get; init; }

    public double LossRoomCovariance { get; init; }

    /// <summary>Tref, °C.</summary>
    public required double ReferenceC { get; init; }

    /// <summary>Heat capacity, J/K.</summary>
    public required double CapacityJPerK { get; init; }

    /// <summary>Whether the lid is off, which the losses then count.</summary>
    public bool LidIsOff { get; init; }

    /// <summary>Losses with the lid the other way, 1/h; null while they were not seen.</summary>
    public double? OtherLidLossPerHour { get; init; }

    /// <summary>Windows learned from in all.</summary>
    public required int Windows { get; init; }

    /// <summary>Runs learned from before this one.</summary>
    public required int EarlierNights { get; init; }

    /// <summary>Room as this estimate sees it, °C: as measured, or as the losses make it seem, within what a workroom can be.</summary>
    public double RoomC => RoomVariance > 0 && LossPerHour > 1e-6 ? Math.Clamp(ReferenceC + RoomKPerHour / LossPerHour, ColdestRoomC, WarmestRoomC) : ReferenceC;

    /// <summary>Rate at a temperature, K/h, and its standard deviation.</summary>
    public (double KPerHour, double Sigma) Rate(double liquorC, bool heaterOn)
    {
        var (u, above) = (heaterOn ? 1 : 0, liquorC - ReferenceC);
        var variance = u * HeatingVariance + above * above * LossVariance + RoomVariance
            - 2 * u * above * HeatingLossCovariance + 2 * u * HeatingRoomCovariance - 2 * above * LossRoomCovariance;
        return (u * HeatingKPerHour - LossPerHour * above + RoomKPerHour, Math.Sqrt(Math.Max(0, variance)));
    }

    /// <summary>Power that the heater surely has, K/h: the lower edge of the 90 % band, and something in any case.</summary>
    public double LeastHeatingKPerHour => Math.Max(HeatingKPerHour - 1.645 * Math.Sqrt(HeatingVariance), 0.15 * HeatingKPerHour);

    /// <summary>
    /// Above it the heater is taken to be on: nearer to the rate without it than to that with the weakest that it may be, so that one with half its power is seen. Liquor clearly warmer than any
    /// room that rises is heated, however strong the heater was thought to be. Liquor that falls where even the weakest would warm it is not: the losses may be those of a vat that was open and has
    /// been covered.
    /// </summary>
    public double HeaterThresholdKPerHour(double liquorC)
    {
        var without = Rate(liquorC, false).KPerHour;
        var part = without + LeastHeatedShare * LeastHeatingKPerHour;
        part = without + LeastHeatingKPerHour > 0 ? Math.Max(part, 0) : part;
        return liquorC > RoomC + ClearlyAboveRoomK ? Math.Min(part, LeastHeatedKPerHour) : part;
    }

    /// <summary>Half-way between the rates without the heater and with the weakest that it may be.</summary>
    public double HalfWayKPerHour(double liquorC) => Rate(liquorC, false).KPerHour + LeastHeatingKPerHour / 2;

    private const double ColdestRoomC = 0;
    private const double WarmestRoomC = 32;
    private const double LeastHeatedShare = 0.3;
    private const double ClearlyAboveRoomK = 10;
    private const double LeastHeatedKPerHour = 0.3;

    /// <summary>Where the liquor ends if nothing changes, °C; infinite without losses.</summary>
    public double PlateauC(bool heaterOn) => LossPerHour > 1e-9
        ? ReferenceC + ((heaterOn ? HeatingKPerHour : 0) + RoomKPerHour) / LossPerHour
        : double.PositiveInfinity;
}
