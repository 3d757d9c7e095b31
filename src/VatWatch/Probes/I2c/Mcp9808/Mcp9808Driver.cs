using VatWatch.Vats.Configuration;

namespace VatWatch.Probes.I2c.Mcp9808;

/// <summary>
/// The driver <c>mcp9808</c>: a board thermometer, fit for the room and, in a sealed tube, for the liquor. <c>address</c>: <c>"0x18"</c> (default)
/// to <c>"0x1F"</c>.
/// </summary>
public sealed class Mcp9808Driver : IProbeDriver
{
    public string Word => "mcp9808";

    public string BusKind => I2cBusKind.Name;

    public string? Notes => "i2c-thermometers";

    public BenchAdvice Advice { get; } = new(
        "Is the board powered and its address the one wired (0x18 to 0x1F)?",
        "Another chip may answer at this address.");

    public FirstSettings Begin(Quantity measures, string place) => new("""{ "address": "0x18" }""");

    public ProbePlan Read(ConfigNode settings, Quantity measures, TimeSpan every)
    {
        Thermometers.RefuseOthers(settings, measures, Word);
        var address = I2cAddress.Read(settings, 0x18, 0x1F, 0x18);
        return I2cSeat.Plan("MCP9808", address, SampleUnit.Canonical(measures), device => new Mcp9808Chip(device));
    }
}
