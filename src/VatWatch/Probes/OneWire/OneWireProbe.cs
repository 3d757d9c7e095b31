using VatWatch.Probes.Blocking;

namespace VatWatch.Probes.OneWire;

/// <summary>One 1-wire thermometer. The kernel itself repeats a failed read, so it is not repeated here.</summary>
internal sealed class OneWireProbe(ProbeDefinition definition, BlockingBus<OneWireFolder> bus, string device) : IProbe
{
    private double? _lastC;
    private bool _isAsked;

    public ProbeDefinition Definition => definition;

    public bool Listens => false;

    public string? Remark { get; private set; }

    public async ValueTask<Sample> TakeSampleAsync(CancellationToken cancel)
    {
        try
        {
            var sample = await bus.RunAsync(folder => folder.Read(device), cancel) is { } text
                ? Scratchpad.Read(text, device, _lastC)
                : Sample.Missing($"the thermometer {device} is not among the 1-wire devices; check its plug, its three wires and its id");
            _lastC = sample.Quality == Quality.Good ? sample.Value : _lastC;
            await NoteSupplyAsync(cancel);
            return sample;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return Sample.Fault($"the thermometer {device} cannot be read ({e.Message.TrimEnd('.')})");
        }
    }

    /// <summary>Asks once: it is a matter of wires, and each asking is a transfer.</summary>
    private async Task NoteSupplyAsync(CancellationToken cancel)
    {
        if (_isAsked)
        {
            return;
        }

        Remark = await bus.RunAsync(folder => folder.HasSupply(device), cancel) switch
        {
            true => "it has a supply wire of its own",
            false => "it lives on its data wire (parasite power), which fails when the liquor is hot; give it its own supply wire",
            null => null,
        };
        _isAsked = true;
    }
}
