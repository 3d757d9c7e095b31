namespace VatWatch.Daemon.Web.Drawing;

/// <summary>What a mark stands for.</summary>
internal enum ChartMarkKind
{
    /// <summary>The goods went in.</summary>
    DipIn,

    /// <summary>They came out.</summary>
    DipOut,

    /// <summary>Something was added.</summary>
    Added,

    /// <summary>Stirred, lid off or on.</summary>
    Handled,

    /// <summary>A note or a picture.</summary>
    Note,

    /// <summary>An alarm came up.</summary>
    Alarm,

    /// <summary>An electrode was calibrated.</summary>
    Calibration,
}
