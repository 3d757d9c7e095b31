namespace VatWatch.Notifications;

/// <summary>What became of one try to notify somebody.</summary>
/// <param name="Kind">Taken, to be tried again, refused for good, or cut off.</param>
/// <param name="Words">A clause for people: what the far side answered or why it could not be reached. Never holds a secret.</param>
public sealed record DeliveryOutcome(DeliveryKind Kind, string Words)
{
    /// <summary>How long the far side asks us to wait before the next try; null when it does not.</summary>
    public TimeSpan? Wait { get; init; }

    /// <summary>Whether only a person can mend it (a wrong password, an untrusted certificate), so that trying often is of no use.</summary>
    public bool NeedsPerson { get; init; }

    /// <summary>Whether it is about the notification's vat alone, so that those of other vats may go on.</summary>
    public bool IsOfVatAlone { get; init; }

    /// <summary>The far side has taken it.</summary>
    public static DeliveryOutcome Taken(string words) => new(DeliveryKind.Taken, words);

    /// <summary>It may go through later.</summary>
    public static DeliveryOutcome Later(string words) => new(DeliveryKind.Later, words);

    /// <summary>It will never go through.</summary>
    public static DeliveryOutcome Never(string words) => new(DeliveryKind.Never, words);

    /// <summary>The connection went away under it.</summary>
    public static DeliveryOutcome CutOff(string words) => new(DeliveryKind.CutOff, words);
}

/// <summary>Whether the far side has taken a notification.</summary>
public enum DeliveryKind
{
    Taken,

    /// <summary>It has not; trying again makes sense.</summary>
    Later,

    /// <summary>It refused this notification for good.</summary>
    Never,

    /// <summary>The connection that the way keeps went away; it tells of that itself, and the next try is made as soon as there is one again.</summary>
    CutOff,
}
