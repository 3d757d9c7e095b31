namespace VatWatch.Notifications;

/// <summary>Whether the far side has taken a sentence.</summary>
public enum DeliveryKind
{
    /// <summary>It has.</summary>
    Taken,

    /// <summary>It has not; trying again makes sense.</summary>
    Later,

    /// <summary>It refused this sentence for good.</summary>
    Never,
}
