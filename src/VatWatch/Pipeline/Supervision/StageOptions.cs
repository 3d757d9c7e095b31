namespace VatWatch.Pipeline.Supervision;

/// <summary>How failed stages are started again.</summary>
public sealed record StageOptions
{
    /// <summary>Wait before the first restart; doubles with each failure in a row. Default 1 s.</summary>
    public TimeSpan FirstWait { get; init; } = TimeSpan.FromSeconds(1);

    /// <summary>Longest wait. Default 30 s.</summary>
    public TimeSpan LongestWait { get; init; } = TimeSpan.FromSeconds(30);

    /// <summary>A stage that ran this long is well again. Default 60 s.</summary>
    public TimeSpan WellAfter { get; init; } = TimeSpan.FromSeconds(60);

    /// <summary>Failures in a row after which the daemon gives up and leaves it to the service manager. Default 8.</summary>
    public int GiveUpAfter { get; init; } = 8;
}
