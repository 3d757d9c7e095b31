using System.Globalization;
using VatWatch.Charts.Export;
using VatWatch.Measurements;

namespace VatWatch.Charts.Tests.Export;

public class MeasurementCsvTests
{
    private static string Written(params IEnumerable<Measurement> measurements)
    {
        using var writer = new StringWriter(CultureInfo.InvariantCulture);
        MeasurementCsv.Write(measurements, writer);
        return writer.ToString();
    }

    [Fact]
    public void A_reading_is_one_line_with_time_to_the_microsecond_and_exact_numbers()
    {
        var reading = NightOfWarming.Good("liquor", Quantity.Temperature, TimeSpan.FromMicroseconds(90_000_001), 0.1 + 0.2) with { Raw = 118.4 };
        Assert.Equal(
            MeasurementCsv.Header + "\r\n2026-03-06T01:01:30.000001Z,liquor,0.30000000000000004,°C,good,,118.4,madder-lane,temperature,true,\r\n",
            Written(reading));
    }

    [Fact]
    public void The_calibration_that_was_used_is_named() =>
        Assert.EndsWith(",true,7\r\n", Written(NightOfWarming.Good("ph-glass", Quantity.Ph, TimeSpan.Zero, 9.8) with { Calibration = 7 }));

    [Fact]
    public void A_missing_value_is_empty_and_its_reason_is_quoted_by_rfc_4180() // section 2, rules 6 and 7
    {
        var reading = NightOfWarming.Bad("ph-glass", Quantity.Ph, TimeSpan.Zero, Quality.Fault, "reply \"E4, hot\"\nis no number");
        reading = reading with { Stamp = reading.Stamp with { UtcTrusted = false } };
        Assert.EndsWith("ph-glass,,pH,fault,\"reply \"\"E4, hot\"\"\nis no number\",,madder-lane,ph,false,\r\n", Written(reading));
    }

    [Fact]
    public void Lines_are_written_as_the_measurements_come()
    {
        using var writer = new StringWriter(CultureInfo.InvariantCulture);
        IEnumerable<Measurement> Endless()
        {
            yield return NightOfWarming.Good("liquor", Quantity.Temperature, TimeSpan.Zero, 40);
            Assert.Equal(1, writer.ToString().Split("liquor").Length - 1);
            yield return NightOfWarming.Good("liquor", Quantity.Temperature, TimeSpan.FromSeconds(5), 41);
        }

        MeasurementCsv.Write(Endless(), writer);
        Assert.Equal(4, writer.ToString().Split("\r\n").Length);
    }
}
