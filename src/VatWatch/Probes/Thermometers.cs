using VatWatch.Vats.Configuration;

namespace VatWatch.Probes;

/// <summary>What all drivers of thermometers ask.</summary>
internal static class Thermometers
{
    /// <summary>Files a fault when a thermometer is to measure something else.</summary>
    public static void RefuseOthers(ConfigNode settings, Quantity measures, string driver)
    {
        if (measures is not (Quantity.Temperature or Quantity.Ambient))
        {
            settings.Faults.Add(settings.Path, $"for the driver \"{driver}\" on a probe that measures \"{measures.Word()}\"", "a probe that measures \"temperature\" or \"ambient\"");
        }
    }
}
