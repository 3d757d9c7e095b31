using Iot.Device.Mcp960x;

namespace VatWatch.Probes.I2c.Mcp960x;

/// <summary>How an MCP960x is read.</summary>
/// <param name="Type">The thermocouple's letter.</param>
/// <param name="ColdJunction">True for the temperature of the chip itself, where the thermocouple's wires end.</param>
internal sealed record Mcp960xSettings(ThermocoupleType Type, bool ColdJunction);
