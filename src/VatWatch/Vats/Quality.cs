namespace VatWatch.Vats;

/// <summary>How far a value may be trusted. Anything but <see cref="Good"/> comes with a reason in words.</summary>
public enum Quality
{
    /// <summary>May be used.</summary>
    Good,

    /// <summary>There is a value, but something about it is doubtful.</summary>
    Suspect,

    /// <summary>There is no value.</summary>
    Missing,

    /// <summary>The probe or its bus reports a fault, or the value cannot be.</summary>
    Fault,
}
