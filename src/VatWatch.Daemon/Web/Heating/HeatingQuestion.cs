using System.Globalization;

namespace VatWatch.Daemon.Web.Heating;

/// <summary>When the vat is to be ready, and how warm, as asked by an address: <c>?ready=07:00&amp;at=108</c>.</summary>
/// <param name="Ready">Local time of day.</param>
/// <param name="TargetC">Wanted liquor temperature, °C.</param>
/// <param name="NeverAboveC">Top of the vat's band, °C: the liquor is not to be warmer than that meanwhile.</param>
internal readonly record struct HeatingQuestion(TimeOnly Ready, double TargetC, double NeverAboveC)
{
    private static readonly TimeOnly Morning = new(7, 0);

    /// <summary>Reads the query; what is absent is seven in the morning, and the middle of the band.</summary>
    /// <returns>False with a sentence when something is there that cannot be meant.</returns>
    public static bool TryRead(IQueryCollection query, VatDefinition vat, DisplayUnits units, out HeatingQuestion question, out string? whyNot)
    {
        question = new(Morning, (vat.Temperature.LowC + vat.Temperature.HighC) / 2, vat.Temperature.HighC);
        whyNot = null;
        if (query["ready"].FirstOrDefault() is { Length: > 0 } ready)
        {
            if (!TimeOnly.TryParseExact(ready, "HH:mm", CultureInfo.InvariantCulture, DateTimeStyles.None, out var time))
            {
                whyNot = "The time is not one of a clock; wanted for example 07:00.";
                return false;
            }

            question = question with { Ready = time };
        }

        if (query["at"].FirstOrDefault() is { Length: > 0 } at)
        {
            var limitC = vat.Temperature.LimitC;
            var wanted = double.TryParse(at, NumberStyles.Float, CultureInfo.InvariantCulture, out var number) ? ToCelsius(number, units) : double.NaN;
            if (!(wanted >= 20 && wanted < limitC))
            {
                whyNot = $"The temperature cannot be meant; wanted a number from {units.Temperature(20)} to below the limit of {units.Temperature(limitC)}.";
                return false;
            }

            question = question with { TargetC = wanted };
        }

        return true;
    }

    /// <summary>Time from <paramref name="now"/> until then; at least a minute, at most a day.</summary>
    public TimeSpan ReadyIn(DateTimeOffset now, TimeZoneInfo zone)
    {
        var local = TimeZoneInfo.ConvertTime(now, zone);
        var wait = Ready.ToTimeSpan() - local.TimeOfDay;
        return wait < TimeSpan.FromMinutes(1) ? wait + TimeSpan.FromDays(1) : wait;
    }

    private static double ToCelsius(double number, DisplayUnits units) => units.IsUs ? (number - 32) / 1.8 : number;
}
