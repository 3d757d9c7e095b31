using System.Text.RegularExpressions;
using VatWatch.Alarms;
using VatWatch.Conditions;
using VatWatch.Daemon.Web.Pages;
using VatWatch.Daemon.Web.Vats.Figures;

namespace VatWatch.Daemon.Web.Vats;

/// <summary>The one thing to do at a vat, with its time, to be read with half-closed eyes.</summary>
internal static partial class NextStep
{
    /// <summary>What comes later than this is no matter of tonight.</summary>
    private static readonly TimeSpan Horizon = TimeSpan.FromHours(12);

    /// <summary>For a vat of whose temperature nothing is known.</summary>
    private const string Blind = "Temperature unknown: switch the heater off at the plug and look at the vat.";

    /// <summary>One or two short sentences.</summary>
    /// <param name="state">As it is shown: unknown where everything it rests on is old.</param>
    /// <param name="advice">What is advised in that state, as <see cref="StateAdvice"/> says it.</param>
    /// <param name="condition">What is known; null where no fresh, good temperature is.</param>
    /// <param name="worst">The weightiest alarm that is on; null without one.</param>
    /// <param name="clock">This moment.</param>
    public static string For(VatState state, string advice, VatCondition? condition, AlarmStatus? worst, LocalClock clock)
    {
        if (condition is null)
        {
            return Blind;
        }

        var step = FirstClause(worst is { Priority: >= AlarmPriority.High } ? worst.Action : advice);
        var band = state == VatState.Warming && condition.TimeToBand is { } toBand ? $": in the band {ForecastText.Clocks(toBand, condition.Stamp, clock)}" : "";
        if (state == VatState.TooHot || OffBy(condition, clock) is not { } by)
        {
            return $"{step}{band}.";
        }

        return step == "Unplug the heater" ? $"{step} {by}." : $"{step}{band}. {(condition.Heat is { HeaterOn: null } ? "If the heater is on, switch it off" : "Switch the heater off")} {by}.";
    }

    private static string? OffBy(VatCondition condition, LocalClock clock)
    {
        if (condition.TimeToLimit is not { } toLimit || toLimit.Early > Horizon)
        {
            return null;
        }

        var left = toLimit.Early - clock.Now.Since(condition.Stamp);
        return left < TimeSpan.FromMinutes(1) ? "now" : $"by {clock.At(clock.Now.Utc + left)}";
    }

    private static string FirstClause(string text) => ClauseEnd().Split(text, 2)[0].TrimEnd('.');

    [GeneratedRegex("[.:;] |, since ")]
    private static partial Regex ClauseEnd();
}
