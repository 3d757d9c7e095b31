namespace VatWatch.Probes.Blocking;

/// <summary>
/// A probe behind a chip. Sets the chip up when the bus was opened, when a transfer failed and when the chip has lost its settings, and takes
/// a sample that failed once more before it tells. Called by one loop at a time.
/// </summary>
/// <param name="chip">What the chip is called, for sentences.</param>
/// <param name="prepare">Sets it up; runs on the device's thread.</param>
internal sealed class ChipProbe<TDevice>(ProbeDefinition definition, string chip, IChipSeat<TDevice> seat, Func<TDevice, IChip> prepare) : IProbe
    where TDevice : class
{
    private Prepared? _prepared;

    public ProbeDefinition Definition => definition;

    public bool Listens => false;

    public async ValueTask<Sample> TakeSampleAsync(CancellationToken cancel)
    {
        var (sample, answered) = await seat.UseAsync(Take, cancel);
        seat.Note(answered);
        return sample;
    }

    private (Sample Sample, bool Answered) Take(TDevice device)
    {
        try
        {
            try
            {
                return (Read(device), true);
            }
            catch (IOException error) when (!TransferError.IsGone(error))
            {
                _prepared = null;
                return (Read(device), true);
            }
        }
        catch (Exception e) when (e is IOException or TimeoutException or WrongChipException or ArgumentException)
        {
            _prepared = null;
            return (Sample.Fault(Reason(e)), e is not IOException or ChipRestartedException);
        }
    }

    private Sample Read(TDevice device)
    {
        // An abandoned call may still hold the chip of an earlier device, so the two are kept together.
        var prepared = _prepared;
        if (prepared?.Device != device)
        {
            prepared = new Prepared(device, prepare(device));
            _prepared = prepared;
        }

        return prepared.Chip.Read();
    }

    private string Reason(Exception error) => error switch
    {
        IOException gone when TransferError.IsGone(gone) => throw new BusLostException($"{seat.Place} is gone ({TransferError.Seen(gone)})", gone),
        ChipRestartedException or WrongChipException => $"{chip} at {seat.Place}: {error.Message}",
        IOException silent => $"{chip} at {seat.Place} does not answer ({TransferError.Seen(silent)}); check {seat.Check}",
        TimeoutException => $"{chip} at {seat.Place} began a conversion and did not finish it; check its supply",
        _ => $"{chip} at {seat.Place} sent a value that is no number",
    };

    private sealed record Prepared(TDevice Device, IChip Chip);
}
