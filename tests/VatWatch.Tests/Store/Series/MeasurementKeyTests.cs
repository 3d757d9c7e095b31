using CsCheck;
using VatWatch.Store.Series;

namespace VatWatch.Tests.Store.Series;

public sealed class MeasurementKeyTests
{
    [Fact]
    public void A_key_gives_its_label_back_rounded_down_to_the_microsecond() =>
        Gen.Long[DateTimeOffset.MinValue.UtcTicks, new DateTime(6500, 1, 1).Ticks].Sample(ticks =>
        {
            var utc = new DateTimeOffset(ticks, TimeSpan.Zero);
            var key = MeasurementKey.First(MeasurementKey.Micros(utc));
            Assert.Equal(utc.AddTicks(-(ticks % 10)), MeasurementKey.Utc(key));
            Assert.Equal(MeasurementKey.Utc(key), MeasurementKey.Utc(key + MeasurementKey.PerMicrosecond - 1));
            Assert.InRange(MeasurementKey.AtOrAfter(utc) - key, 0, MeasurementKey.PerMicrosecond);
        });

    [Fact]
    public void A_label_past_the_range_is_filed_at_its_end() =>
        Assert.Equal(6586, MeasurementKey.Utc(MeasurementKey.First(MeasurementKey.Micros(DateTimeOffset.MaxValue))).Year);

    [Fact]
    public void Today_and_until_2055_a_key_fits_the_8_byte_form_of_SQLite()
    {
        // 56 bits: sqlite.org/fileformat2.html §1.6, varint.
        Assert.True(MeasurementKey.AtOrAfter(new(2055, 1, 1, 0, 0, 0, TimeSpan.Zero)) < 1L << 56);
    }
}
