namespace VatWatch.Alarms;

/// <summary>Every kind of alarm by the word that topics, files and the configuration use.</summary>
public static class AlarmNames
{
    public const string Overheat = "overheat";
    public const string OverheatForecast = "overheat-forecast";
    public const string HeatingFault = "heating-fault";
    public const string Cold = "cold";
    public const string RedoxRising = "redox-rising";
    public const string RedoxWeak = "redox-weak";
    public const string Oxidised = "oxidised";
    public const string AlkaliLow = "alkali-low";
    public const string AlkaliHigh = "alkali-high";
    public const string ProbeSilent = "probe-silent";
    public const string ProbeFault = "probe-fault";
    public const string ProbeDisagrees = "probe-disagrees";
    public const string CalibrationDue = "calibration-due";
    public const string StoreFault = "store-fault";
    public const string BrokerLost = "broker-lost";
    public const string ClockUntrusted = "clock-untrusted";
    public const string StageRestarted = "stage-restarted";
    public const string BusLost = "bus-lost";
    public const string ServerBehind = "server-behind";
    public const string ContactUnreachable = "contact-unreachable";
    public const string WatchSilent = "watch-silent";

    /// <summary>No alarm: what a note about a vat itself is filed under.</summary>
    public const string Note = "note";

    /// <summary>An alarm about one probe, for example <c>probe-silent.liquor</c>.</summary>
    public static AlarmName Of(string kind, ProbeId probe) => new($"{kind}.{probe.Value}");

    /// <summary>The kind of an alarm: its name up to the full stop.</summary>
    public static string Kind(this AlarmName name) => name.Value.Split('.', 2)[0];
}
