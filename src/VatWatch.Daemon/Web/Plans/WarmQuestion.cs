using VatWatch.Daemon.Dosing;
using VatWatch.Daemon.Plans;

namespace VatWatch.Daemon.Web.Plans;

/// <summary>When a vat is to be ready, and how warm, as an address asks it: <c>?ready=07:00&amp;at=108</c>.</summary>
/// <param name="Ready">Local time of day; nine in the morning when not said.</param>
/// <param name="TargetC">Wanted liquor temperature, °C; the middle of the band when not said.</param>
internal readonly record struct WarmQuestion(TimeOnly Ready, double TargetC)
{
    private static readonly TimeOnly Morning = new(9, 0);

    /// <summary>Reads it; what cannot be meant is filed.</summary>
    public static WarmQuestion Read(IQueryCollection query, VatDefinition vat, DisplayUnits units, DoseFigures figures)
    {
        var question = new WarmQuestion(Morning, WarmAsked.UsualTarget(vat));
        if (query["ready"].FirstOrDefault() is { Length: > 0 } ready)
        {
            if (PlanClock.Time(ready) is { } time)
            {
                question = question with { Ready = time };
            }
            else
            {
                figures.Fault("Ready at", ready, "a time of day such as 09:00");
            }
        }

        if (query["at"].FirstOrDefault() is { Length: > 0 } at)
        {
            if (PlanFields.Temperature(at, units) is { } targetC)
            {
                question = question with { TargetC = targetC };
            }
            else
            {
                figures.Fault("Liquor at", at, $"a number of {units.TemperatureUnit} from {units.Temperature(PlanFields.LeastTargetC)} to below {units.Temperature(100)}");
            }
        }

        return question;
    }
}
