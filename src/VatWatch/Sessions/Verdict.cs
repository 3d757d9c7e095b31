namespace VatWatch.Sessions;

/// <summary>What the dyer says of a session afterwards.</summary>
public enum Verdict
{
    /// <summary>As it should be; the vat's baseline is learned from such sessions.</summary>
    Good,

    /// <summary>Not to be repeated.</summary>
    Poor,
}
