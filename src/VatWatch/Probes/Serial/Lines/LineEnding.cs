namespace VatWatch.Probes.Serial.Lines;

/// <summary>What ends a line of an instrument.</summary>
public enum LineEnding
{
    /// <summary>CR, LF or both in either order, whichever comes.</summary>
    Any,

    /// <summary>LF; a CR before it is dropped.</summary>
    Lf,

    /// <summary>CR; a LF that follows is dropped.</summary>
    Cr,

    /// <summary>CR and LF together; either alone belongs to the line.</summary>
    CrLf,
}
