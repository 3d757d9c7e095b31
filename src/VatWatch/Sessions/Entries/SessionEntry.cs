namespace VatWatch.Sessions.Entries;

/// <summary>One entry of the log book. What was written stays; an entry that was a slip is withdrawn, not removed. Immutable.</summary>
public sealed record SessionEntry
{
    /// <summary>Its row; entries are in order of it.</summary>
    public required long Id { get; init; }

    public required VatId Vat { get; init; }

    /// <summary>The session; null for one between sessions, such as feeding the vat in the evening.</summary>
    public SessionId? Session { get; init; }

    /// <summary>What it tells.</summary>
    public required EntryKind Kind { get; init; }

    /// <summary>When it happened.</summary>
    public required Stamp At { get; init; }

    /// <summary>Who wrote it, as they gave it.</summary>
    public required string By { get; init; }

    /// <summary>What was added; only with <see cref="EntryKind.Added"/>.</summary>
    public Material? Material { get; init; }

    /// <summary>
    /// How much: of a material in its unit (<see cref="EntryText.Unit(Material)"/>); L that were drawn off or make the new liquor; the value of a reading in its unit; seconds of a
    /// sign that is timed; g of goods, dry.
    /// </summary>
    public double? Amount { get; init; }

    /// <summary>Of a stock g of indigo per L; of what is weighed the share of it that counts, above 0 to 1; null where nobody said.</summary>
    public double? Strength { get; init; }

    /// <summary>What was read; only with <see cref="EntryKind.Reading"/>.</summary>
    public HandReading? Reading { get; init; }

    /// <summary>What was seen; only with <see cref="EntryKind.Sign"/>.</summary>
    public Sign? Sign { get; init; }

    /// <summary>What the goods are; only with <see cref="EntryKind.Goods"/>.</summary>
    public GoodsKind? Goods { get; init; }

    /// <summary>What was written beside it.</summary>
    public string? Text { get; init; }

    /// <summary>When the vat should be warm, UTC; only with <see cref="EntryKind.HeaterOn"/>.</summary>
    public DateTimeOffset? ReadyBy { get; init; }

    /// <summary>When it was withdrawn, UTC; null while it stands.</summary>
    public DateTimeOffset? Withdrawn { get; init; }
}
