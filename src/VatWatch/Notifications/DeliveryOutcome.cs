namespace VatWatch.Notifications;

/// <summary>What became of one try to tell somebody.</summary>
/// <param name="Kind">Taken, to be tried again, or refused for good.</param>
/// <param name="Words">A clause for people: what the far side answered or why it could not be reached. Never holds a secret.</param>
public sealed record DeliveryOutcome(DeliveryKind Kind, string Words)
{
    /// <summary>How long the far side asks us to wait before the next try; null when it does not.</summary>
    public TimeSpan? Wait { get; init; }

    /// <summary>Whether only a person can mend it (a wrong password, an untrusted certificate), so that trying often is of no use.</summary>
    public bool NeedsPerson { get; init; }

    /// <summary>The far side has taken it.</summary>
    public static DeliveryOutcome Taken(string words) => new(DeliveryKind.Taken, words);

    /// <summary>It may go through later.</summary>
    public static DeliveryOutcome Later(string words) => new(DeliveryKind.Later, words);

    /// <summary>It will never go through.</summary>
    public static DeliveryOutcome Never(string words) => new(DeliveryKind.Never, words);
}
