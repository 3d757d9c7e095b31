namespace VatWatch.Probes.Serial.Ports;

/// <summary>How an exchange with an instrument ended.</summary>
internal enum ExchangeOutcome
{
    /// <summary>A whole answer came in time.</summary>
    Answered,

    /// <summary>No whole answer came in time.</summary>
    Unanswered,

    /// <summary>Nothing was asked, because too many answers are owed: see <see cref="LateAnswers"/>.</summary>
    Held,

    /// <summary>Nothing was asked, because the device has been silent and the others have the line: see <see cref="SilentDevices"/>.</summary>
    Rested,
}
