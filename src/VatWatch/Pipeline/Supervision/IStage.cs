namespace VatWatch.Pipeline.Supervision;

/// <summary>One part of the daemon that runs until it is told to stop. Returning or throwing before that is a fault.</summary>
public interface IStage
{
    /// <summary>A word for logs, health and metrics.</summary>
    string Name { get; }

    /// <summary>Shows that it makes progress.</summary>
    Pulse Pulse { get; }

    /// <summary>Runs until <paramref name="cancel"/>; may be called again after it failed.</summary>
    Task RunAsync(CancellationToken cancel);
}
