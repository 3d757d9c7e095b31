namespace VatWatch.Vats;

/// <summary>The name of one vat in topics, addresses and stored rows: lower-case letters, digits and hyphens, at most 40.</summary>
public readonly record struct VatId(string Value)
{
    /// <summary>The vat that an alarm about the daemon itself is filed under.</summary>
    public static VatId Daemon { get; } = new("daemon");

    public override string ToString() => Value;
}
