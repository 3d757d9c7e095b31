using VatWatch.Conditions.Heating;
using VatWatch.Conditions.Heating.Learning;
using VatWatch.Science.Heat.Model;

namespace VatWatch.Plans.Warm;

/// <summary>A vat's heat as a plan needs it: one mixed mass, each figure with its standard deviation. Immutable.</summary>
/// <param name="PowerW">Heater power that ends up in the liquor, W; above 0.</param>
/// <param name="PowerSigmaW">Its standard deviation, W.</param>
/// <param name="LossWPerK">Loss coefficient with the lid as it usually is, evaporation counted, W/K.</param>
/// <param name="LossSigmaWPerK">Its standard deviation, W/K.</param>
/// <param name="CapacityJPerK">Heat capacity of liquor, vat and gear, J/K.</param>
/// <param name="RoomC">The room, °C.</param>
/// <param name="Nights">Nights the figures were learned in; 0 for those that a vat of this size usually has.</param>
public sealed record VatHeat(
    double PowerW, double PowerSigmaW, double LossWPerK, double LossSigmaWPerK, double CapacityJPerK, double RoomC, int Nights)
{
    /// <summary>Loss coefficient towards <see cref="LikelyRoomC"/> while people work at the vat with its lid off, W/K.</summary>
    public required double OpenLossWPerK { get; init; }

    /// <summary>Whether the lid is off now.</summary>
    public bool LidIsOff { get; init; }

    /// <summary>Whether a probe tells the room; otherwise it is what the losses make it seem.</summary>
    public bool RoomIsMeasured { get; init; }

    /// <summary>Where a thermostat was seen to switch off, °C; null when it was not.</summary>
    public double? ThermostatC { get; init; }

    /// <summary>
    /// Share of what the heater seems to give the liquor that warms all of it. A warm-up that nobody stirs leaves what lies below the element cold, so that the thermometer rises as
    /// if the heater were stronger than its plate; dips and hands mix that in.
    /// </summary>
    public double MixedShare { get; init; } = UsualMixedShare;

    /// <summary>Where no plate tells, on average on a second physics; no source.</summary>
    private const double UsualMixedShare = 0.965;

    /// <summary>A part of what the heater seems to give beyond its plate is losses that the balance takes for too great. The same.</summary>
    private const double MixedPower = 0.75;

    /// <summary>An element stands in the lowest third.</summary>
    private const double LeastMixedShare = 0.65;

    /// <summary>A workroom outside the hours in which it is heated, °C; set on a second physics, no source.</summary>
    private const double UsualRoomC = 14;

    /// <summary>
    /// The room the liquor cools to, °C. Where no probe tells it, it is the usual one by night: the room that warming and holding lead to is warmer than any, since evaporation grows faster
    /// than the warmth, and tells nothing of the real one.
    /// </summary>
    public double LikelyRoomC => RoomIsMeasured ? RoomC : UnmeasuredRoomC;

    /// <summary>The room where no probe tells it, °C: that of a night, unless <see cref="At"/> says another hour.</summary>
    private double UnmeasuredRoomC { get; init; } = UsualRoomC;

    /// <summary>The last stretch of a warm-up, which is nearest to work.</summary>
    private const double BelowBandK = 6;

    /// <summary>A power or a loss known worse than this is a guess from the size of the vat.</summary>
    private const double GuessedShare = 0.25;

    /// <summary>Whether the heater was told or learned; otherwise its power is a guess from the size of the vat.</summary>
    public bool HeaterIsKnown => PowerSigmaW < GuessedShare * PowerW;

    /// <summary>Whether the power is what a plate or a person says, as long as nothing was learned.</summary>
    public bool PowerIsTold => Math.Abs(PowerSigmaW - HeatPrior.NameplateShareSigma * PowerW) < 1e-6 * PowerW;

    /// <summary>What is known of a vat without a running watch.</summary>
    /// <param name="vat">The vat; its nameplate stands in for a power that was not learned.</param>
    /// <param name="learned">What earlier nights have taught; null for nothing.</param>
    /// <param name="roomC">The room, °C; null when nobody tells.</param>
    public static VatHeat Of(VatDefinition vat, LearnedHeat? learned, double? roomC)
    {
        var balance = new HeatBalance(HeatPrior.Of(vat));
        if (learned is { IsPlausible: true })
        {
            balance.Restore(learned);
        }

        return Of(vat, new HeatOutlook(balance.Estimate(roomC), 0, heaterOn: null, (0, 0), DisplayUnits.Si, learned?.ThermostatC));
    }

    /// <summary>What a running watch holds of the vat now.</summary>
    public static VatHeat Of(VatDefinition vat, HeatOutlook heat)
    {
        var prior = HeatPrior.Of(vat);
        var (covered, open) = heat.LidIsOff
            ? (heat.OtherLidLossWPerK ?? prior.LossWPerK, heat.Loss.Sigma < GuessedShare * heat.Loss.WattsPerKelvin ? heat.Loss.WattsPerKelvin : (double?)null)
            : (heat.Loss.WattsPerKelvin, heat.OtherLidLossWPerK);
        var known = new VatHeat(heat.HeaterPower.Watts, heat.HeaterPower.Sigma, covered, heat.Loss.Sigma, heat.CapacityJPerK, heat.RoomC, heat.EarlierNights)
        {
            OpenLossWPerK = 0,
            LidIsOff = heat.LidIsOff,
            RoomIsMeasured = heat.RoomIsMeasured,
            ThermostatC = heat.ThermostatC,
        };
        var warmC = (vat.Temperature.LowC + vat.Temperature.HighC) / 2;
        var aboveK = Math.Max(0, warmC - heat.RoomC);
        var openW = open is { } seen ? seen * aboveK : OpenW(prior, covered * aboveK, warmC, known.LikelyRoomC);
        return known with { OpenLossWPerK = openW / Math.Max(1, warmC - known.LikelyRoomC) };
    }

    /// <summary>What a vat loses without its lid, W. One that loses more than is usual with a lid may have none, so that taking it off adds to what is usual, not to what it loses.</summary>
    private static double OpenW(HeatPrior usual, double coveredW, double liquorC, double roomC) =>
        Math.Max(coveredW, Math.Min(coveredW, usual.LossWPerK * (liquorC - roomC)) + usual.OpenLidW(liquorC, roomC));

    /// <summary>With the power that the last warm-ups show, where there were any: the balance shares an error between power and losses.</summary>
    /// <param name="seen">Its last warm-ups, newest first.</param>
    public VatHeat Seen(VatDefinition vat, IReadOnlyList<SeenWarmUp> seen)
    {
        var (fromC, toC) = (vat.Temperature.LowC - BelowBandK, vat.Temperature.LowC);
        var on = new FirstOrderVat(PowerW, LossWPerK, CapacityJPerK, RoomC);
        var share = Balance(fromC, toC) is { TotalHours: > 0 } balance && SeenWarmUp.Time(seen, fromC, toC, isBegun: true, Balance) is { } took ? took / balance : 1;
        var lossW = LossWPerK * ((fromC + toC) / 2 - RoomC);
        var powerW = lossW + (PowerW - lossW) / share;
        return this with { PowerW = powerW, MixedShare = vat.HeaterWatts is { } plateW ? Math.Clamp(Math.Pow(plateW / powerW, MixedPower), LeastMixedShare, 1) : UsualMixedShare };

        TimeSpan? Balance(double from, double to) => on.TryTimeTo(from, to, out var seconds) && seconds < 1e6 ? TimeSpan.FromSeconds(seconds) : null;
    }

    /// <summary>In the room of an hour.</summary>
    /// <param name="room">How the room goes with the hours.</param>
    public VatHeat At(DateTimeOffset at, RoomByHour room, TimeZoneInfo zone) =>
        this with { UnmeasuredRoomC = UsualRoomC + RoomByHour.NightShare * room.SwingK + room.AboveMeanK(at, zone) };

    /// <summary>With another heater, by its nameplate.</summary>
    public VatHeat WithHeater(double watts) => this with { PowerW = watts, PowerSigmaW = HeatPrior.NameplateShareSigma * watts, MixedShare = 1 };
}
