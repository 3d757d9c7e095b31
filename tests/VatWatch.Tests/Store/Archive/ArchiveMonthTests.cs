using VatWatch.Store.Archive;
using static VatWatch.Tests.Store.StoreRig;

namespace VatWatch.Tests.Store.Archive;

public sealed class ArchiveMonthTests
{
    [Fact]
    public void A_month_is_named_by_its_vat_and_date_and_read_back_from_the_name()
    {
        var month = ArchiveMonth.Of(Madder, Dusk);
        Assert.Equal("madder-lane-2031-03.parquet", month.FileName);
        Assert.Equal(month, ArchiveMonth.Parse(month.FileName));
        Assert.Equal((new DateTimeOffset(2031, 3, 1, 0, 0, 0, TimeSpan.Zero), new DateTimeOffset(2031, 4, 1, 0, 0, 0, TimeSpan.Zero)), (month.From, month.To));
    }

    [Theory]
    [InlineData("madder-lane-2031-13.parquet")]
    [InlineData("-2031-03.parquet")]
    [InlineData("madder-lane-2031-03.parquet.part")]
    [InlineData("madder-lane-2031-03.parquet-damaged")]
    [InlineData("recipes.parquet")]
    public void Another_file_is_no_month(string name) => Assert.Null(ArchiveMonth.Parse(name));
}
