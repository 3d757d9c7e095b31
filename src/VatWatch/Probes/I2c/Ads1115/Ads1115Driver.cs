using Iot.Device.Ads1115;
using VatWatch.Vats.Configuration;

namespace VatWatch.Probes.I2c.Ads1115;

/// <summary>The driver <c>ads1115</c>: one input of a 16-bit converter on an I2C bus, and what its voltage stands for.</summary>
/// <remarks>
/// <para><c>address</c>: <c>"0x48"</c> to <c>"0x4B"</c>, by the wire of the address pin: ground, supply, SDA, SCL.</para>
/// <para><c>input</c>: <c>ain0</c> to <c>ain3</c> against ground, or a difference: <c>ain0-ain1</c>, <c>ain0-ain3</c>, <c>ain1-ain3</c>, <c>ain2-ain3</c>.</para>
/// <para><c>range</c>: full scale, one of 6.144, 4.096 (default), 2.048, 1.024, 0.512 and 0.256 V, with its unit. Whatever the range, a pin must
/// stay within the chip's supply and ground, to 0.3 V.</para>
/// <para><c>rate</c>: conversions per second: 8 (default: one conversion alone keeps out the hum of the mains by 29 dB), 16, 32, 64, 128 (2 dB), 250, 475 or 860.</para>
/// <para><c>average</c>: conversions, 1 to 64, that a reading is the mean of; as many as fill half a second by default, because that holds whole
/// periods of 50 and of 60 Hz: 4 at 8/s, which keep the hum out by 38 dB at least, even where the chip's clock is a tenth off (worked out).</para>
/// <para>and one of <c>electrode</c>, <c>thermistor</c>, <c>volts</c>; see <see cref="VoltageMeaningReader"/>.</para>
/// </remarks>
public sealed class Ads1115Driver : IProbeDriver
{
    private const int MostAveraged = 64;

    public string Word => "ads1115";

    public string BusKind => I2cBusKind.Name;

    public string? Notes => "electrodes-ads1115";

    public BenchAdvice Advice { get; } = new(
        "Is the board powered and its address the one wired (0x48 to 0x4B)? Is I2C switched on and this user in its group?",
        "Check input, range and wiring; an open electrode or thermistor reads at the end of the range.");

    public FirstSettings Begin(Quantity measures, string place) => measures is Quantity.Temperature or Quantity.Ambient
        ? new(
            """{ "address": "0x48", "input": "ain1", "thermistor": { "series": "10 kΩ", "supply": "3.3 V", "nominal": "10 kΩ", "beta": "3977 K" } }""",
            "A thermistor to ground with 10 kΩ to the supply; \"beta\" from its sheet.")
        : new(
            """{ "address": "0x48", "input": "ain0", "rate": 8, "electrode": { "gain": 1, "zero": "0 mV" } }""",
            "Gain and zero of the electrode's amplifier, from its sheet. `vatwatch calibrate` does the rest.");

    public ProbePlan Read(ConfigNode settings, Quantity measures, TimeSpan every)
    {
        var address = I2cAddress.Read(settings, 0x48, 0x4B);
        var input = settings.Choice("input", Ads1115Text.Inputs, InputMultiplexer.AIN0, required: true);
        var range = ReadRange(settings);
        var rate = ReadRate(settings);
        var perSecond = Ads1115Text.Rates.First(pair => pair.Value == rate).Key;
        var average = settings.Whole("average", 1, MostAveraged, Math.Min(MostAveraged, perSecond / 2));
        var meaning = VoltageMeaningReader.Read(settings, measures);
        var chip = new Ads1115Settings(input, range, rate, average, meaning);
        return I2cSeat.Plan("ADS1115", address, meaning.Unit, device => new Ads1115Chip(device, chip));
    }

    private static MeasuringRange ReadRange(ConfigNode settings)
    {
        const string wanted = "one of \"6.144 V\", \"4.096 V\", \"2.048 V\", \"1.024 V\", \"0.512 V\", \"0.256 V\"";
        if (settings.OptionalText("range", wanted, "4.096 V") is not { Length: > 0 } text)
        {
            return MeasuringRange.FS4096;
        }

        if (QuantityKind.Potential.TryParse(text, out var millivolts) && millivolts is > 0 and < 10_000
            && Ads1115Text.Ranges.TryGetValue((int)Math.Round(millivolts, 3), out var range) && Math.Abs(millivolts - Math.Round(millivolts)) < 1e-6)
        {
            return range;
        }

        settings.Faults.Add(settings.PathOf("range"), ConfigNode.Quote(text), wanted);
        return MeasuringRange.FS4096;
    }

    private static DataRate ReadRate(ConfigNode settings)
    {
        var perSecond = settings.Whole("rate", 8, 860, 8);
        if (Ads1115Text.Rates.TryGetValue(perSecond, out var rate))
        {
            return rate;
        }

        settings.Faults.Add(settings.PathOf("rate"), $"{perSecond}", $"one of {string.Join(", ", Ads1115Text.Rates.Keys)}");
        return DataRate.SPS008;
    }
}
