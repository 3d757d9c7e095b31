namespace VatWatch.Probes;

/// <summary>
/// One probe on an open bus. Expected faults (no reply, bad frame) come back as a <see cref="Sample"/>; a bus that is gone comes as
/// <see cref="BusLostException"/>. Called by one loop at a time.
/// </summary>
public interface IProbe
{
    /// <summary>The probe as configured.</summary>
    ProbeDefinition Definition { get; }

    /// <summary>
    /// True when the instrument speaks by itself: the probe then only listens, never occupies the bus, and a call may wait for as long
    /// as <see cref="ProbeDefinition.Every"/> before it reports the value missing.
    /// </summary>
    bool Listens { get; }

    /// <summary>What the last exchange showed beside its sample, for people on the bench: a clause. Null when there is nothing.</summary>
    string? Remark => null;

    ValueTask<Sample> TakeSampleAsync(CancellationToken cancel);
}
