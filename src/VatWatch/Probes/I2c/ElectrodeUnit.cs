using VatWatch.Vats.Configuration;

namespace VatWatch.Probes.I2c;

/// <summary>In which unit the millivolts of an electrode are delivered.</summary>
internal static class ElectrodeUnit
{
    /// <summary>Reads the optional <c>unit</c>: "electrode mV" (default), or for ORP "mV" when the value is finished and needs no calibration.</summary>
    public static SampleUnit Read(ConfigNode node, Quantity measures)
    {
        var wanted = measures == Quantity.Orp ? $"\"{SampleUnit.ElectrodeText}\" or \"mV\"" : $"\"{SampleUnit.ElectrodeText}\"";
        var text = node.OptionalText("unit", wanted, SampleUnit.ElectrodeText)!;
        if (SampleUnit.TryParse(text, measures, out var unit) && (unit.IsElectrode || (measures == Quantity.Orp && text == "mV")))
        {
            return unit;
        }

        // A probe that measures something else is refused elsewhere.
        if (text.Length > 0 && measures is Quantity.Ph or Quantity.Orp)
        {
            node.Faults.Add(node.PathOf("unit"), ConfigNode.Quote(text), wanted);
        }

        return SampleUnit.Canonical(measures);
    }
}
