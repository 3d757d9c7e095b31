namespace VatWatch.Sessions;

/// <summary>What an entry of the log book tells.</summary>
public enum EntryKind
{
    /// <summary>The goods went into the liquor.</summary>
    DipIn,

    /// <summary>They came out.</summary>
    DipOut,

    /// <summary>Something was added.</summary>
    Added,

    /// <summary>The liquor was stirred.</summary>
    Stirred,

    /// <summary>The lid came off.</summary>
    LidOff,

    /// <summary>The lid went on.</summary>
    LidOn,

    /// <summary>The dyer wrote something down.</summary>
    Note,

    /// <summary>A picture of the liquor or the goods.</summary>
    Photo,
}
