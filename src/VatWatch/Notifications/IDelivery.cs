namespace VatWatch.Notifications;

/// <summary>Brings single sentences to one contact by one way. One call at a time.</summary>
internal interface IDelivery : IAsyncDisposable
{
    /// <summary>The far side was reached anew, so what it refused may be tried again at once. Only a way that keeps a connection raises it.</summary>
    event Action? Reconnected
    {
        add { }
        remove { }
    }

    /// <summary>Completes when a try makes sense: at once, or for a way that keeps a connection when there is one.</summary>
    Task ReadyAsync(CancellationToken cancel) => Task.CompletedTask;

    /// <summary>
    /// Brings one sentence. Expected trouble comes back as an outcome; every wait inside is bounded. <paramref name="key"/> is the same at
    /// every try of one sentence and different for every other, so that a receiver knows a repeat.
    /// </summary>
    Task<DeliveryOutcome> SendAsync(Notification notification, string key, CancellationToken cancel);

    /// <summary>Nothing more is waiting: what is kept open may be closed.</summary>
    Task RestAsync() => Task.CompletedTask;
}
