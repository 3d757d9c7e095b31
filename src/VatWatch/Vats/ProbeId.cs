namespace VatWatch.Vats;

/// <summary>The name of one probe, unique in the whole configuration; same alphabet as <see cref="VatId"/>.</summary>
public readonly record struct ProbeId(string Value)
{
    public override string ToString() => Value;
}
