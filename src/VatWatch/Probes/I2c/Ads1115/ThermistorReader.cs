using Iot.Device.Ads1115;
using VatWatch.Science;
using VatWatch.Science.Thermometry;
using VatWatch.Vats.Configuration;

namespace VatWatch.Probes.I2c.Ads1115;

/// <summary>
/// Reads a thermistor in a divider.
/// <para><c>series</c>: the known resistor, such as "10 kΩ". <c>between</c>: <c>tap-and-ground</c> (default) or <c>supply-and-tap</c>, where the
/// thermistor lies.</para>
/// <para><c>supply</c>: the divider's supply, such as "3.3 V", or <c>supplyInput</c>: an input of the same chip that measures it.</para>
/// <para>The part, by one of: <c>beta</c> ("3977 K") with <c>nominal</c> (resistance at 25 °C, "10 kΩ"); <c>ratio</c> { a, b, c, d } with
/// <c>nominal</c>; <c>steinhartHart</c> { a, b, c } in ohms.</para>
/// </summary>
internal static class ThermistorReader
{
    private static readonly Dictionary<string, bool> Places = new(StringComparer.Ordinal)
    {
        ["tap-and-ground"] = false,
        ["supply-and-tap"] = true,
    };

    private const double LowestBeta = 1000;
    private const double HighestBeta = 10_000;

    public static DividedThermistor Read(ConfigNode node)
    {
        var series = node.Quantity("series", QuantityKind.Resistance, 10, 10_000_000);
        var toSupply = node.Choice("between", Places, false);
        var (supply, input) = ReadSupply(node);
        return new DividedThermistor(series, toSupply, supply, input, ReadPart(node));
    }

    private static (double Volts, InputMultiplexer? Input) ReadSupply(ConfigNode node)
    {
        if (!node.Has("supplyInput"))
        {
            return (node.Quantity("supply", QuantityKind.Potential, 500, 6000) / 1000, null);
        }

        if (node.Has("supply"))
        {
            node.Faults.Add(node.PathOf("supply"), "set beside supplyInput", "one of the two: a supply that is measured needs no figure");
        }

        return (0, node.Choice("supplyInput", Ads1115Text.Inputs, InputMultiplexer.AIN3));
    }

    private static Func<double, Estimate> ReadPart(ConfigNode node)
    {
        var hasBeta = node.Has("beta");
        var ratio = node.OptionalSection("ratio");
        var steinhartHart = node.OptionalSection("steinhartHart");
        var given = (hasBeta ? 1 : 0) + (ratio is null ? 0 : 1) + (steinhartHart is null ? 0 : 1);
        if (given != 1 && !node.IsBroken)
        {
            node.Faults.Add(node.Path, given == 0 ? "without coefficients" : "with coefficients of more than one kind", "one of \"beta\", \"ratio\", \"steinhartHart\"");
        }

        if (steinhartHart is not null)
        {
            var part = new SteinhartHartThermistor(Coefficient(steinhartHart, "a"), Coefficient(steinhartHart, "b"), Coefficient(steinhartHart, "c"));
            steinhartHart.Done();
            return part.TemperatureC;
        }

        var nominal = node.Quantity("nominal", QuantityKind.Resistance, 10, 10_000_000);
        if (ratio is not null)
        {
            var part = new RatioThermistor(nominal, Coefficient(ratio, "a"), Coefficient(ratio, "b"), Coefficient(ratio, "c"), Coefficient(ratio, "d"));
            ratio.Done();
            return part.TemperatureC;
        }

        return new BetaThermistor(nominal, hasBeta ? ReadBeta(node) : LowestBeta).TemperatureC;
    }

    private static double ReadBeta(ConfigNode node)
    {
        var wanted = $"the constant B of the part with its unit, such as \"3977 K\", from {LowestBeta} K to {HighestBeta} K";
        var text = node.Text("beta", wanted);
        if (text.EndsWith('K') && QuantityKind.Temperature.TryParse(text, out var celsius) && celsius + 273.15 is >= LowestBeta and <= HighestBeta)
        {
            return celsius + 273.15;
        }

        if (text.Length > 0)
        {
            node.Faults.Add(node.PathOf("beta"), ConfigNode.Quote(text), wanted);
        }

        return LowestBeta;
    }

    /// <summary>Such coefficients are small; one of 1 or more is a slip of the pen.</summary>
    private static double Coefficient(ConfigNode node, string key) => node.Number(key, -1, 1);
}
