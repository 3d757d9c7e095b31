using VatWatch.Pipeline.Configuration;
using VatWatch.Probes.Gpio;
using VatWatch.Probes.I2c;
using VatWatch.Probes.I2c.Ads1115;
using VatWatch.Probes.I2c.Mcp960x;
using VatWatch.Probes.I2c.Mcp9808;
using VatWatch.Probes.I2c.TextBoard;
using VatWatch.Probes.I2c.UFireIse;
using VatWatch.Probes.Kernel;
using VatWatch.Probes.Modbus;
using VatWatch.Probes.OneWire;
using VatWatch.Probes.Serial;
using VatWatch.Probes.Serial.Lines;
using VatWatch.Probes.Simulation;
using VatWatch.Probes.Spi;
using VatWatch.Probes.Spi.Max31865;

namespace VatWatch.Daemon.Wiring;

/// <summary>Every kind of bus and driver this program knows: one line each.</summary>
internal static class Catalog
{
    public static ProbeCatalog Everything { get; } = ProbeCatalog.Of(
        [
            new SerialBusKind(),
            new ModbusTcpBusKind(),
            new I2cBusKind(),
            new SpiBusKind(),
            new OneWireBusKind(),
            new KernelBusKind(),
            new GpioBusKind(),
            new SimulationBusKind(),
        ],
        [
            new TextLineDriver(),
            new ModbusRtuDriver(),
            new ModbusTcpDriver(),
            new Ads1115Driver(),
            new Mcp9808Driver(),
            new Mcp960xDriver(),
            new UFireIseDriver(),
            new TextBoardDriver(),
            new Max31865Driver(),
            new OneWireDriver(),
            new KernelFileDriver(),
            new ContactDriver(),
            new SimulatedDriver(),
        ]);
}
