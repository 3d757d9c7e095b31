using VatWatch.Conditions;
using VatWatch.Daemon.Web.Pages;
using VatWatch.Daemon.Web.Vats.Figures;

namespace VatWatch.Daemon.Web.Heating;

/// <summary>When to switch the heater so that a vat is ready at an hour.</summary>
/// <param name="Ready">That hour, UTC.</param>
/// <param name="TargetC">Wanted liquor temperature.</param>
/// <param name="HeaterOn">Whether the heater heats now; null when not known.</param>
/// <param name="SwitchOn">Time until the heater must be on; null when there is no answer.</param>
/// <param name="NoSwitchOn">Why not, as a clause.</param>
/// <param name="SwitchOff">Time until it may go off for the liquor to coast to the target.</param>
/// <param name="NoSwitchOff">Why not, as a clause.</param>
internal sealed record HeatingAnswer(
    DateTimeOffset Ready, double TargetC, bool? HeaterOn, ForecastDocument? SwitchOn, string? NoSwitchOn, ForecastDocument? SwitchOff, string? NoSwitchOff)
{
    /// <summary>Works it out from the newest condition.</summary>
    public static HeatingAnswer Of(VatCondition condition, HeatingQuestion question, TimeZoneInfo zone)
    {
        var (on, off) = Ask(condition, question, zone);
        return new(
            condition.Stamp.Utc + question.ReadyIn(condition.Stamp.Utc, zone),
            Math.Round(question.TargetC, 2),
            condition.Heat?.HeaterOn,
            ForecastDocument.Of(on.Forecast),
            on.WhyNot,
            ForecastDocument.Of(off.Forecast),
            off.WhyNot);
    }

    /// <summary>The same as sentences for the dyer.</summary>
    public static IEnumerable<string> Sentences(VatCondition condition, HeatingQuestion question, DisplayUnits units, LocalClock clock)
    {
        var (on, off) = Ask(condition, question, clock.Zone);
        var target = $"{units.Temperature(question.TargetC)} at {question.Ready:HH\\:mm}";
        if (condition.Heat is null)
        {
            yield return $"Nothing can be said: {on.WhyNot}.";
            yield break;
        }

        if (on.Forecast is { } start)
        {
            var warmUp = question.ReadyIn(condition.Stamp.Utc, clock.Zone);
            yield return start.Middle < TimeSpan.FromMinutes(1) && warmUp > TimeSpan.Zero
                ? $"To be at {target} the heater would have to be on by now; it may not get there in time."
                : $"For {target}, switch the heater on {ForecastText.Range(start, condition.Stamp, clock)}.";
        }
        else
        {
            yield return $"Switching on: no time to give, because {on.WhyNot}.";
        }

        yield return off.Forecast is { } stop
            ? $"To coast to {target}, switch the heater off {ForecastText.Range(stop, condition.Stamp, clock)}."
            : $"Switching off: no time to give, because {off.WhyNot}.";
    }

    private static (ForecastAnswer On, ForecastAnswer Off) Ask(VatCondition condition, HeatingQuestion question, TimeZoneInfo zone)
    {
        if (condition.Heat is not { } heat)
        {
            var nothing = new ForecastAnswer(null, condition.NoTimeToBand ?? "the temperature is not known");
            return (nothing, nothing);
        }

        var readyIn = question.ReadyIn(condition.Stamp.Utc, zone);
        return (heat.SwitchOn(question.TargetC, readyIn), heat.SwitchOff(question.TargetC, readyIn, question.NeverAboveC));
    }
}
