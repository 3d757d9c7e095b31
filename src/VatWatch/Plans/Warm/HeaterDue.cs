namespace VatWatch.Plans.Warm;

/// <summary>A heater that somebody is to switch on by a kept plan.</summary>
/// <param name="SwitchOn">When, UTC, by what is known now.</param>
/// <param name="Ready">When the vat should be warm, UTC.</param>
/// <param name="TargetC">How warm, °C.</param>
public sealed record HeaterDue(DateTimeOffset SwitchOn, DateTimeOffset Ready, double TargetC)
{
    /// <summary>When the vat is warm if the heater is switched on now, UTC, where that is after <see cref="Ready"/>; null while the wish can be kept.</summary>
    public DateTimeOffset? Late { get; init; }
}
