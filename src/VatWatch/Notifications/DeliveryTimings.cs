namespace VatWatch.Notifications;

/// <summary>Every wait and bound of a <see cref="ContactSender"/>, with its reason. Tests shorten them; the configuration does not.</summary>
internal sealed record DeliveryTimings
{
    /// <summary>One try from beginning to end; beyond the sum of what a way itself waits for.</summary>
    public TimeSpan Try { get; init; } = TimeSpan.FromMinutes(2);

    /// <summary>First wait after a try that failed.</summary>
    public TimeSpan FirstRetry { get; init; } = TimeSpan.FromSeconds(5);

    /// <summary>Longest wait between tries; a server that comes back hears of us within it.</summary>
    public TimeSpan MostRetry { get; init; } = TimeSpan.FromMinutes(2);

    /// <summary>First wait after something only a person can mend; servers lock out who knocks too often.</summary>
    public TimeSpan FirstRefusedRetry { get; init; } = TimeSpan.FromSeconds(30);

    /// <summary>Longest wait after something only a person can mend.</summary>
    public TimeSpan MostRefusedRetry { get; init; } = TimeSpan.FromMinutes(10);

    /// <summary>A far side that asks for more patience than this is not heeded further.</summary>
    public TimeSpan MostAsked { get; init; } = TimeSpan.FromHours(1);

    /// <summary>The outbox is looked at this often even if nobody says that something waits.</summary>
    public TimeSpan OutboxPoll { get; init; } = TimeSpan.FromSeconds(60);

    /// <summary>Wait after the outbox itself failed.</summary>
    public TimeSpan OutboxRetry { get; init; } = TimeSpan.FromSeconds(5);

    /// <summary>One call to the outbox.</summary>
    public TimeSpan OutboxTable { get; init; } = TimeSpan.FromSeconds(10);

    /// <summary>How long after the beginning of the first try that failed it is an alarm: a server that restarts is back by then.</summary>
    public TimeSpan Patience { get; init; } = TimeSpan.FromSeconds(55);

    /// <summary>So many connections must have gone away under tries before it is an alarm; a broker that restarts takes one or two.</summary>
    public int CutOffs { get; init; } = 3;

    /// <summary>How long connections must have gone away under every try before it is an alarm.</summary>
    public TimeSpan CutOffPatience { get; init; } = TimeSpan.FromSeconds(25);
}
