namespace VatWatch.Probes.OneWire;

/// <summary>One 1-wire thermometer. The kernel itself repeats a failed read, so it is not repeated here.</summary>
internal sealed class OneWireProbe(ProbeDefinition definition, OneWireBus bus, string device) : IProbe
{
    private double? _lastC;

    public ProbeDefinition Definition => definition;

    public bool Listens => false;

    public async ValueTask<Sample> TakeSampleAsync(CancellationToken cancel)
    {
        try
        {
            var sample = await bus.ReadAsync(device, cancel) is { } text
                ? Scratchpad.Read(text, device, _lastC)
                : Sample.Missing($"the thermometer {device} is not among the 1-wire devices; check its plug, its three wires and its id");
            _lastC = sample.Quality == Quality.Good ? sample.Value : _lastC;
            return sample;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return Sample.Fault($"the thermometer {device} cannot be read ({e.Message.TrimEnd('.')})");
        }
    }
}
