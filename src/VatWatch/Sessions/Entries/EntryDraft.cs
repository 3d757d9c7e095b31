namespace VatWatch.Sessions.Entries;

/// <summary>An entry that somebody wants to write. <see cref="SessionRules"/> says whether it may be.</summary>
/// <param name="By">Who; 1 to 60 characters.</param>
public sealed record EntryDraft(VatId Vat, EntryKind Kind, string By)
{
    /// <summary>What was added.</summary>
    public Material? Material { get; init; }

    /// <summary>How much, in the unit that <see cref="SessionEntry.Amount"/> has.</summary>
    public double? Amount { get; init; }

    /// <summary>How strong: see <see cref="SessionEntry.Strength"/>.</summary>
    public double? Strength { get; init; }

    public HandReading? Reading { get; init; }

    /// <summary>What was seen or smelt.</summary>
    public Sign? Sign { get; init; }

    public GoodsKind? Goods { get; init; }

    /// <summary>What is written beside it.</summary>
    public string? Text { get; init; }

    /// <summary>With <see cref="EntryKind.HeaterOn"/>: the local time of day by which the vat should be warm, the next that comes; null without such a wish.</summary>
    public TimeOnly? ReadyAt { get; init; }

    /// <summary>When it happened, UTC; null: now. <see cref="SessionRules"/> says how far back.</summary>
    public DateTimeOffset? At { get; init; }

    /// <summary>What the phone calls the tap that this comes from: the same tap sent again writes nothing more. Null where nothing is sent again.</summary>
    public string? Tap { get; init; }

    /// <summary>The picture of an entry of kind <see cref="EntryKind.Photo"/>.</summary>
    public Photo? Photo { get; init; }

    public const int LongestText = 500;

    /// <summary>Longest name of a tap.</summary>
    public const int LongestTap = 64;

    /// <summary>Longest name of a person.</summary>
    public const int LongestBy = 60;
}
