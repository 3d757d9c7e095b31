using Iot.Device.Ads1115;
using VatWatch.Vats.Configuration;

namespace VatWatch.Probes.I2c.Ads1115;

/// <summary>
/// Reads what a voltage stands for: exactly one of these sections of a probe's settings.
/// <para><c>electrode</c>: <c>gain</c> (of the amplifier, default 1) and <c>zero</c> (its output at 0 mV, such as "1.5 V", default "0 V"), and
/// for ORP optionally <c>unit</c>: "electrode mV" (default; a calibration adds its offset) or "mV".</para>
/// <para><c>thermistor</c>: see <see cref="ThermistorReader"/>.</para>
/// <para><c>volts</c>: an empty object; an ORP instrument whose output is the potential itself.</para>
/// </summary>
internal static class VoltageMeaningReader
{
    private const string Wanted = "one of the sections \"electrode\", \"thermistor\", \"volts\"";

    public static IVoltageMeaning Read(ConfigNode settings, Quantity measures)
    {
        var electrode = settings.OptionalSection("electrode");
        var thermistor = settings.OptionalSection("thermistor");
        var volts = settings.OptionalSection("volts");
        var given = new[] { electrode, thermistor, volts }.Count(section => section is not null);
        if (given != 1 && !settings.IsBroken)
        {
            settings.Faults.Add(settings.Path, given == 0 ? "without what its voltage stands for" : "with more than one meaning of its voltage", Wanted);
        }

        IVoltageMeaning meaning = new PlainVolts(SampleUnit.Canonical(measures));
        if (electrode is not null)
        {
            meaning = ReadElectrode(electrode, measures);
        }
        else if (thermistor is not null)
        {
            meaning = ReadThermistor(thermistor, measures);
        }
        else if (volts is not null)
        {
            meaning = ReadVolts(volts, measures);
        }

        return meaning;
    }

    private static AmplifiedElectrode ReadElectrode(ConfigNode node, Quantity measures)
    {
        Refuse(node, measures is Quantity.Ph or Quantity.Orp, measures, "an electrode for a probe that measures \"ph\" or \"orp\"");
        var gain = node.Number("gain", -1000, 1000, 1);
        if (Math.Abs(gain) < 0.01)
        {
            node.Faults.Add(node.PathOf("gain"), node.Shown("gain"), "a number from 0.01 to 1000, or its negative for an amplifier that inverts");
        }

        var zero = node.Quantity("zero", QuantityKind.Potential, -6000, 6000, 0);
        var unit = ElectrodeUnit.Read(node, measures);
        node.Done();
        return new AmplifiedElectrode(gain, zero / 1000, unit);
    }

    private static DividedThermistor ReadThermistor(ConfigNode node, Quantity measures)
    {
        Refuse(node, measures is Quantity.Temperature or Quantity.Ambient, measures, "a thermistor for a probe that measures \"temperature\" or \"ambient\"");
        var thermistor = ThermistorReader.Read(node);
        node.Done();
        return thermistor;
    }

    private static PlainVolts ReadVolts(ConfigNode node, Quantity measures)
    {
        Refuse(node, measures is Quantity.Orp, measures, "plain volts for a probe that measures \"orp\"");
        node.Done();
        return new PlainVolts(SampleUnit.TryParse("V", measures, out var unit) ? unit : SampleUnit.Canonical(measures));
    }

    private static void Refuse(ConfigNode node, bool fits, Quantity measures, string wanted)
    {
        if (!fits)
        {
            node.Faults.Add(node.Path, $"set for a probe that measures \"{measures.Word()}\"", wanted);
        }
    }
}

/// <summary>The voltage as it is, V.</summary>
internal sealed record PlainVolts(SampleUnit Unit) : IVoltageMeaning
{
    public InputMultiplexer? SupplyInput => null;

    public Sample Translate(double volts, double? supplyVolts) => Sample.Good(volts);
}

/// <summary>An electrode behind an amplifier: electrode mV = 1000 (V − zero) / gain.</summary>
/// <param name="Gain">Volts out per volt of the electrode; negative for an inverting amplifier.</param>
/// <param name="ZeroVolts">Output at 0 mV of the electrode.</param>
/// <param name="Unit">Electrode mV for a calibration to turn into a value, or mV of finished ORP.</param>
internal sealed record AmplifiedElectrode(double Gain, double ZeroVolts, SampleUnit Unit) : IVoltageMeaning
{
    public InputMultiplexer? SupplyInput => null;

    public Sample Translate(double volts, double? supplyVolts) => Sample.Good(1000 * (volts - ZeroVolts) / Gain);
}
