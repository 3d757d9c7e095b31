namespace VatWatch.Probes.Serial;

/// <summary>How an exchange with an instrument ended.</summary>
internal enum ExchangeOutcome
{
    /// <summary>A whole answer came in time.</summary>
    Answered,

    /// <summary>No whole answer came in time.</summary>
    Unanswered,

    /// <summary>Nothing was asked, because too many answers are owed: see <see cref="LateAnswers"/>.</summary>
    Held,
}
