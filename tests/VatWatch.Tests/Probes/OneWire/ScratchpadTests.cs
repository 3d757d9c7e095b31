using System.Globalization;
using CsCheck;
using VatWatch.Probes;
using VatWatch.Probes.OneWire;

namespace VatWatch.Tests.Probes.OneWire;

/// <summary>The two lines of the kernel's 1-wire thermometer driver, with the traps of its source and of the parts.</summary>
public sealed class ScratchpadTests
{
    private const string Device = "28-0316a2797ac5";

    /// <summary>Bytes and checksums: the maker's note on the checksum (ROM) and data sheet examples, recomputed.</summary>
    [Theory]
    [InlineData("02 1c b8 01 00 00 00", 0xa2)]
    [InlineData("50 05 4b 46 7f ff 0c 10", 0x1c)]
    [InlineData("7f 01 4b 46 7f ff 01 10", 0x33)]
    [InlineData("04 03 4b 46 7f ff 0c 10", 0x9a)]
    [InlineData("20 03 4b 46 7f ff 10 10", 0x86)]
    [InlineData("5e ff 4b 46 7f ff 02 10", 0xb6)]
    [InlineData("00 00 00 00 00 00 00 00", 0x00)]
    public void The_checksum_is_that_of_the_bus(string bytes, byte checksum)
    {
        Assert.Equal(checksum, Scratchpad.Checksum(Bytes(bytes)));
        Assert.Equal(0, Scratchpad.Checksum([.. Bytes(bytes), checksum]));
    }

    [Theory]
    [InlineData("04 03 4b 46 7f ff 0c 10 9a : crc=9a YES\n04 03 4b 46 7f ff 0c 10 9a t=48250\n", 48.25)]
    [InlineData("7f 01 4b 46 7f ff 01 10 33 : crc=33 YES\n7f 01 4b 46 7f ff 01 10 33 t=23937\n", 23.9375)]
    [InlineData("20 03 4b 46 7f ff 10 10 86 : crc=86 YES\n20 03 4b 46 7f ff 10 10 86 t=50000\n", 50)]
    [InlineData("5e ff 4b 46 7f ff 02 10 b6 : crc=b6 YES\n5e ff 4b 46 7f ff 02 10 b6 t=-10125\n", -10.125)]
    [InlineData("04 03 4b 46 7f ff 0c 10 9a : crc=9a YES\n20 03 4b 46 7f ff 10 10 86 t=48250\n", 48.25)]
    public void A_good_read_is_the_temperature_of_its_first_line(string text, double celsius) =>
        Assert.Equal(Sample.Good(celsius), Scratchpad.Read(text, Device));

    [Fact]
    public void A_temperature_of_exactly_85_is_doubted_and_at_power_up_a_fault()
    {
        foreach (var byte6 in new[] { "10", "ff" })
        {
            var doubted = Scratchpad.Read(Text($"50 05 4b 46 7f ff {byte6} 10", 85000), Device);
            Assert.Equal((Quality.Suspect, 85.0), (doubted.Quality, doubted.Value));
        }

        Assert.Equal(Sample.Good(85.0625), Scratchpad.Read(Text("51 05 4b 46 7f ff 0f 10", 85062), Device));
        var powerOn = Scratchpad.Read(Text("50 05 4b 46 7f ff 0c 10", 85000), Device, 84.25);
        Assert.Equal(Quality.Fault, powerOn.Quality);
        Assert.Equal($"the thermometer {Device} shows 85 °C as it does after power-up, without having measured; check its supply", powerOn.Reason);
    }

    /// <summary>Clones do not mark their power-on content in byte 6; those of 13 and 14 bits add up to three sixty-fourths.</summary>
    [Theory]
    [InlineData("50 05 4b 46 7f ff 10 10", 85000, null)]
    [InlineData("50 05 4b 46 7f ff 10 10", 85000, 48.25)]
    [InlineData("50 05 4b 46 7f ff ff 10", 85000, 48.25)]
    [InlineData("50 05 4b 46 7f ff 10 10", 85000, 82.9375)]
    [InlineData("50 05 4b 46 a3 ff ff 10", 85046, 48.25)]
    public void A_temperature_of_85_out_of_nowhere_is_doubted(string bytes, int milliC, double? lastC)
    {
        var sample = Scratchpad.Read(Text(bytes, milliC), Device, lastC);
        Assert.Equal((Quality.Suspect, milliC / 1000.0), (sample.Quality, sample.Value));
        Assert.Contains("exactly 85 °C", sample.Reason);
    }

    [Theory]
    [InlineData(83.0)]
    [InlineData(87.0)]
    public void A_temperature_of_85_near_the_last_reading_is_believed(double lastC) =>
        Assert.Equal(Sample.Good(85), Scratchpad.Read(Text("50 05 4b 46 7f ff ff 10", 85000), Device, lastC));

    [Fact]
    public void A_temperature_beside_85_needs_no_reading_before_it() =>
        Assert.Equal(Sample.Good(84.9375), Scratchpad.Read(Text("4f 05 4b 46 7f ff 10 10", 84937), Device));

    /// <summary>Layout and figures: the kernel's w1_therm driver, which shifts the word by two and adds the two lowest bits of byte 4.</summary>
    [Theory]
    [InlineData("27 03 4b 46 80 ff 10 10", 50437, 50.4375)]
    [InlineData("27 03 4b 46 83 ff 10 10", 50484, 50.46875)]
    [InlineData("27 03 4b 46 a0 ff 10 10", 50437, 50.4375)]
    [InlineData("27 03 4b 46 a3 ff 10 10", 50484, 50.484375)]
    [InlineData("5e ff 4b 46 a1 ff 10 10", -10109, -10.109375)]
    [InlineData("27 03 4b 46 a3 ff 10 10", 50437, 50.484375)]
    public void Clones_with_13_and_14_bits_keep_them(string bytes, int milliC, double celsius) =>
        Assert.Equal(Sample.Good(celsius), Scratchpad.Read(Text(bytes, milliC), Device));

    [Theory]
    [InlineData("ff 07 4b 46 7f ff 01 10", 127937)]
    [InlineData("ff 07 4b 46 7f ff 01 10", 127938)]
    [InlineData("ff 07 4b 46 7f ff 01 10", 127940)]
    public void Too_little_power_for_the_conversion_is_told(string bytes, int milliC)
    {
        var sample = Scratchpad.Read(Text(bytes, milliC), Device);
        Assert.Equal((Quality.Fault, (double?)null), (sample.Quality, sample.Value));
        Assert.Contains("too little power", sample.Reason);
    }

    [Theory]
    [InlineData("")]
    [InlineData("\n")]
    [InlineData("\0\0")]
    public void An_empty_read_is_a_missing_value(string text)
    {
        var sample = Scratchpad.Read(text, Device);
        Assert.Equal((Quality.Missing, (double?)null), (sample.Quality, sample.Value));
        Assert.StartsWith($"the thermometer {Device} gave nothing", sample.Reason);
    }

    [Theory]
    [InlineData("04 03 4b 46 7f ff 0c 10 9b : crc=9a NO\n20 03 4b 46 7f ff 10 10 86 t=50000\n", "wrong checksum")]
    [InlineData("04 03 4b 46 7f ff 0c 10 9b : crc=9b YES\n04 03 4b 46 7f ff 0c 10 9b t=48250\n", "wrong checksum")]
    [InlineData("00 00 00 00 00 00 00 00 00 : crc=00 YES\n00 00 00 00 00 00 00 00 00 t=0\n", "only zeros")]
    [InlineData("04 03 4b 46 7f ff 0c 10 9a : crc=9a YES\n04 03 4b 46 7f ff 0c 10 9a t=\n", "is not a scratchpad")]
    [InlineData("04 03 4b 46 7f ff 0c 10 9a : crc=9a YES\n", "is not a scratchpad")]
    [InlineData("48250\n", "is not a scratchpad")]
    [InlineData("04 03 4b 46 7f ff 0c 10 9a : crc=9a YES\n04 03 4b 46 7f ff 0c 10 9a t=50000\n", "does not fit the bytes")]
    [InlineData("50 05 4b 46 7f ff 10 10 bd : crc=bd YES\n50 05 4b 46 7f ff 10 10 bd t=48250\n", "does not fit the bytes")]
    public void What_is_no_good_read_is_a_fault_without_value(string text, string reason)
    {
        var sample = Scratchpad.Read(text, Device);
        Assert.Equal((Quality.Fault, (double?)null), (sample.Quality, sample.Value));
        Assert.Contains(reason, sample.Reason);
    }

    [Theory]
    [InlineData("e0 07 4b 46 7f ff 01 10", 126000, "says 126.0 °C; wanted -55 to 125 °C")]
    [InlineData("80 fc 4b 46 7f ff 01 10", -56000, "says -56.0 °C; wanted -55 to 125 °C")]
    public void A_temperature_outside_the_parts_range_is_a_fault(string bytes, int milliC, string reason) =>
        Assert.Contains(reason, Scratchpad.Read(Text(bytes, milliC), Device).Reason);

    /// <summary>At fewer bits the lowest ones are undefined (data sheet, from memory): byte 4 is 1f, 3f, 5f or 7f for 9 to 12 bits.</summary>
    [Theory]
    [InlineData("27 03 4b 46 1f ff 10 10", 50437, 50.0)]
    [InlineData("27 03 4b 46 3f ff 10 10", 50437, 50.25)]
    [InlineData("27 03 4b 46 5f ff 10 10", 50437, 50.375)]
    [InlineData("27 03 4b 46 7f ff 10 10", 50437, 50.4375)]
    [InlineData("27 03 4b 46 9f ff 10 10", 50437, 50.46875)]
    [InlineData("27 03 4b 46 bf ff 10 10", 50437, 50.484375)]
    public void Undefined_low_bits_are_cut_off(string bytes, int milliC, double celsius) =>
        Assert.Equal(Sample.Good(celsius), Scratchpad.Read(Text(bytes, milliC), Device));

    [Fact]
    public void The_old_family_goes_by_the_kernels_figure() =>
        Assert.Equal(Sample.Good(25.19), Scratchpad.Read(Text("32 00 4b 46 ff ff 0c 10", 25190), "10-000802b4ba0e"));

    [Fact]
    public void No_text_makes_it_throw() => Gen.OneOf(
            Gen.String,
            Gen.String[Gen.Char["0123456789abcdef :=crYESNOt-\n"], 0, 120],
            Gen.Byte.Array[8].Select(Gen.Int[-99_999, 199_999], (bytes, milliC) => Text(string.Join(' ', bytes.Select(b => b.ToString("x2", CultureInfo.InvariantCulture))), milliC)))
        .Sample(
            text =>
            {
                var sample = Scratchpad.Read(text, Device);
                return sample.Quality is Quality.Good or Quality.Suspect ? sample.Value is >= -55.5 and <= 125.5 : sample.Value is null && sample.Reason is not null;
            },
            seed: "0000KOIPe036",
            iter: 20_000);

    private static string Text(string bytes, int milliC)
    {
        var checksum = Scratchpad.Checksum(Bytes(bytes)).ToString("x2", CultureInfo.InvariantCulture);
        return $"{bytes} {checksum} : crc={checksum} YES\n{bytes} {checksum} t={milliC}\n";
    }

    private static byte[] Bytes(string hex) => Convert.FromHexString(hex.Replace(" ", "", StringComparison.Ordinal));
}
