namespace VatWatch.Alarms.Rules.Heat;

/// <summary>
/// What to do about liquor that is too hot, in one voice for alarm, page, mail and message. After the project's safety notes: mains before hands, and the plug before a switch, since relays weld shut and solid-state ones fail closed; a
/// strong heater scalds and boils; thiourea dioxide and dithionite give off sulfur dioxide and other gases with heat (registration and state
/// right-to-know sheets of both), and hydrogen sulfide dulls the nose that should warn of it. Standing back and lifting the lid late and from the
/// far side are engineering judgement.
/// </summary>
public static class SafetyActions
{
    /// <summary>So near to boiling what follows is not a matter of degrees: layers boil before the probe shows it. Engineering judgement.</summary>
    private const double NearK = 10;

    /// <summary>For liquor above its band or its limit.</summary>
    public const string TooHot =
        "Unplug the heater at the wall, air the room and stay back: a hot reducing bath breathes steam and gas. Lift the lid only later, far edge first, face away.";

    /// <summary>For liquor that boils or is about to.</summary>
    public const string Boiling =
        "Cut the heater's power now, at the breaker if its plug is in the steam. Open doors and windows, leave the room and keep everybody out until it has cooled below its limit; leave the lid as it is.";

    /// <summary>Whether liquor boils or is about to, where it boils at <paramref name="boilingC"/>.</summary>
    public static bool IsNearBoiling(double? temperatureC, double boilingC) => temperatureC >= boilingC - NearK;

    /// <summary>What to do at this warmth, °C, in a vat whose liquor boils at <paramref name="boilingC"/>.</summary>
    public static string At(double? temperatureC, double boilingC) => IsNearBoiling(temperatureC, boilingC) ? Boiling : TooHot;
}
