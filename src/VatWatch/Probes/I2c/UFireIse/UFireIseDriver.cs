using VatWatch.Vats.Configuration;

namespace VatWatch.Probes.I2c.UFireIse;

/// <summary>
/// The driver <c>ufire-ise</c>: a µFire ISE board with a pH or ORP electrode; delivers the electrode's millivolts for our own calibration.
/// <c>address</c>: <c>"0x3F"</c> by default, <c>"0x08"</c> to <c>"0x77"</c> for a board that was given another. <c>unit</c>: "electrode mV"
/// (default), or for ORP "mV". Leave it two seconds and more between samples: one holds the bus for 0.77 s.
/// </summary>
public sealed class UFireIseDriver : IProbeDriver
{
    private static readonly TimeSpan Shortest = TimeSpan.FromSeconds(1);

    public string Word => "ufire-ise";

    public string BusKind => I2cBusKind.Name;

    public string? Notes => "electrodes-ads1115";

    public BenchAdvice Advice { get; } = new(
        "Is the board powered and at address 0x3F?",
        "Is the electrode plugged in and in liquor?");

    public FirstSettings Begin(Quantity measures, string place) => new("""{ "address": "0x3F" }""");

    public ProbePlan Read(ConfigNode settings, Quantity measures, TimeSpan every)
    {
        if (measures is not (Quantity.Ph or Quantity.Orp))
        {
            settings.Faults.Add(settings.Path, $"for the driver \"{Word}\" on a probe that measures \"{measures.Word()}\"", "a probe that measures \"ph\" or \"orp\"");
        }

        if (every < Shortest)
        {
            settings.Faults.Add(settings.Path, $"for the driver \"{Word}\" on a probe read every {every.TotalSeconds:0.0} s", "a probe read every 1 s at most: one reading takes 0.8 s");
        }

        var address = I2cAddress.Read(settings, 0x08, 0x77, 0x3F);
        var unit = ElectrodeUnit.Read(settings, measures);
        return I2cSeat.Plan("µFire ISE", address, unit, device => new UFireIseChip(device));
    }
}
