using Iot.Device.Ads1115;

namespace VatWatch.Probes.I2c.Ads1115;

/// <summary>Inputs, ranges and rates of an ADS1115 as the configuration writes them. Source: the chip's register description.</summary>
internal static class Ads1115Text
{
    public static IReadOnlyDictionary<string, InputMultiplexer> Inputs { get; } = new Dictionary<string, InputMultiplexer>(StringComparer.Ordinal)
    {
        ["ain0"] = InputMultiplexer.AIN0,
        ["ain1"] = InputMultiplexer.AIN1,
        ["ain2"] = InputMultiplexer.AIN2,
        ["ain3"] = InputMultiplexer.AIN3,
        ["ain0-ain1"] = InputMultiplexer.AIN0_AIN1,
        ["ain0-ain3"] = InputMultiplexer.AIN0_AIN3,
        ["ain1-ain3"] = InputMultiplexer.AIN1_AIN3,
        ["ain2-ain3"] = InputMultiplexer.AIN2_AIN3,
    };

    /// <summary>Full scale in mV.</summary>
    public static IReadOnlyDictionary<int, MeasuringRange> Ranges { get; } = new Dictionary<int, MeasuringRange>
    {
        [6144] = MeasuringRange.FS6144,
        [4096] = MeasuringRange.FS4096,
        [2048] = MeasuringRange.FS2048,
        [1024] = MeasuringRange.FS1024,
        [512] = MeasuringRange.FS0512,
        [256] = MeasuringRange.FS0256,
    };

    /// <summary>Conversions per second.</summary>
    public static IReadOnlyDictionary<int, DataRate> Rates { get; } = new Dictionary<int, DataRate>
    {
        [8] = DataRate.SPS008,
        [16] = DataRate.SPS016,
        [32] = DataRate.SPS032,
        [64] = DataRate.SPS064,
        [128] = DataRate.SPS128,
        [250] = DataRate.SPS250,
        [475] = DataRate.SPS475,
        [860] = DataRate.SPS860,
    };

    /// <summary>The configuration's word for an input.</summary>
    public static string Of(InputMultiplexer input) => Inputs.First(pair => pair.Value == input).Key;
}
