namespace VatWatch.Charts.Recipes.Frame;

/// <summary>Which marks a chart holds that need a word of explanation at its foot.</summary>
[Flags]
internal enum KeyEntries
{
    /// <summary>None.</summary>
    None = 0,

    /// <summary>Hatching.</summary>
    NoReadings = 1,

    /// <summary>Crosses.</summary>
    Fault = 2,

    /// <summary>Dotted stretches.</summary>
    Suspect = 4,

    /// <summary>Bars of alarms.</summary>
    Alarm = 8,
}
