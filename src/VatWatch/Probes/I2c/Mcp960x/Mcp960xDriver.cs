using Iot.Device.Mcp960x;
using VatWatch.Vats.Configuration;

namespace VatWatch.Probes.I2c.Mcp960x;

/// <summary>
/// The driver <c>mcp960x</c>: an MCP9600 or MCP9601 with a thermocouple. <c>address</c>: <c>"0x60"</c> to <c>"0x67"</c> (default, address pin at
/// the supply). <c>type</c>: the thermocouple's letter, <c>K</c> by default. <c>junction</c>: <c>hot</c> (default), or <c>cold</c> for the
/// temperature of the chip, which is about that of its box.
/// </summary>
public sealed class Mcp960xDriver : IProbeDriver
{
    private static readonly Dictionary<string, ThermocoupleType> Types =
        Enum.GetValues<ThermocoupleType>().ToDictionary(type => type.ToString(), StringComparer.Ordinal);

    private static readonly Dictionary<string, bool> Junctions = new(StringComparer.Ordinal)
    {
        ["hot"] = false,
        ["cold"] = true,
    };

    public string Word => "mcp960x";

    public string BusKind => I2cBusKind.Name;

    public string? Notes => "i2c-thermometers";

    public BenchAdvice Advice { get; } = new(
        "Is the board powered and its address the one wired (0x60 to 0x67)?",
        "Look at the thermocouple: open, shorted, of another type, or its two wires exchanged.");

    public FirstSettings Begin(Quantity measures, string place) => new("""{ "address": "0x67", "type": "K" }""");

    public ProbePlan Read(ConfigNode settings, Quantity measures, TimeSpan every)
    {
        Thermometers.RefuseOthers(settings, measures, Word);
        var address = I2cAddress.Read(settings, 0x60, 0x67, 0x67);
        var chip = new Mcp960xSettings(settings.Choice("type", Types, ThermocoupleType.K), settings.Choice("junction", Junctions, false));
        return I2cSeat.Plan("MCP960x", address, SampleUnit.Canonical(measures), device => new Mcp960xChip(device, chip));
    }
}

/// <summary>How an MCP960x is read.</summary>
/// <param name="Type">The thermocouple's letter.</param>
/// <param name="ColdJunction">True for the temperature of the chip itself, where the thermocouple's wires end.</param>
internal sealed record Mcp960xSettings(ThermocoupleType Type, bool ColdJunction);
