using VatWatch.Conditions;

namespace VatWatch.Daemon.Web.Api;

/// <summary>A time ahead with its band of about 90 %, in minutes.</summary>
/// <param name="EarlyMinutes">Early edge.</param>
/// <param name="MiddleMinutes">Best estimate.</param>
/// <param name="LateMinutes">Late edge; null when it may never happen.</param>
internal sealed record ForecastReply(double EarlyMinutes, double MiddleMinutes, double? LateMinutes)
{
    internal static ForecastReply? Of(Forecast? forecast) => forecast is null
        ? null
        : new(Minutes(forecast.Early), Minutes(forecast.Middle), forecast.Late is { } late ? Minutes(late) : null);

    private static double Minutes(TimeSpan time) => Math.Round(time.TotalMinutes, 1);
}
