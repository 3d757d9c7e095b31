namespace VatWatch.Nights.Scoring;

/// <summary>The alarms that nights are scored by, as the design calls them.</summary>
internal static class AlarmNames
{
    public const string Overheat = "overheat";
    public const string OverheatForecast = "overheat-forecast";
    public const string HeatingFault = "heating-fault";
    public const string Cold = "cold";
    public const string RedoxRising = "redox-rising";
    public const string RedoxWeak = "redox-weak";
    public const string Oxidised = "oxidised";
    public const string ProbeSilent = "probe-silent";
    public const string ProbeFault = "probe-fault";
}
