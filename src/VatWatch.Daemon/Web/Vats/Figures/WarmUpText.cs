using VatWatch.Conditions;
using VatWatch.Daemon.Web.Pages;

namespace VatWatch.Daemon.Web.Vats.Figures;

/// <summary>A warm-up that was begun, in sentences: what it should have brought by now, and what is seen.</summary>
internal static class WarmUpText
{
    /// <summary>Why nobody is warned of a probe in the air without a warm-up that was begun.</summary>
    public const string NotBegun =
        "No warm-up was begun and no probe reads the heater's power, so VatWatch cannot tell a probe that hangs in the air: the vat may boil beside a cool reading. Tap Heater on when you switch it on.";

    /// <summary>The sentence; null when no warm-up was begun.</summary>
    public static string? Of(VatCondition condition, DisplayUnits units, LocalClock clock)
    {
        if (condition.WarmUp is not { } warmUp)
        {
            return null;
        }

        var begun = $"Warm-up begun {clock.At(warmUp.Since.Utc)}{(warmUp.ReadyBy is { } wish ? $", to be ready by {clock.At(wish)}" : "")}";
        if (warmUp is not { StartC: { } startC, RiseK: { } rise })
        {
            return $"{begun}; how it goes is not known yet.";
        }

        var (low, high) = (units.Temperature(startC + warmUp.ExpectedRiseK.Low), units.Temperature(startC + warmUp.ExpectedRiseK.High));
        var expected = low == high ? low : $"{low} to {high}";
        var slow = warmUp.SlowSince is { } since ? $" Since {clock.At(since.Utc)} it has risen less than half of the least that is plausible." : "";
        var late = warmUp.IsLate(condition.Stamp.Utc) ? " By the forecast it will not be ready in time." : "";
        return $"{begun}: {expected} is expected by now, {units.Temperature(startC + rise)} is seen.{slow}{late}";
    }

    /// <summary>Whether a probe in the air would go unnoticed while the vat is heated.</summary>
    public static bool IsBlindToAProbeInAir(VatState state, VatCondition condition, VatDefinition vat) =>
        state is VatState.Warming or VatState.TooCold && condition.WarmUp is null && !vat.Probes.Any(probe => probe.Quantity == Quantity.Heater);
}
