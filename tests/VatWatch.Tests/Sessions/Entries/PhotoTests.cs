using VatWatch.Sessions.Entries;

namespace VatWatch.Tests.Sessions.Entries;

public sealed class PhotoTests
{
    [Theory]
    [InlineData("FFD8FFE000104A46", "image/jpeg")]
    [InlineData("89504E470D0A1A0A0000", "image/png")]
    [InlineData("524946460000000057454250", "image/webp")]
    [InlineData("5249464600000000574156452020", null)]
    [InlineData("3C68746D6C3E", null)]
    [InlineData("", null)]
    public void The_first_bytes_tell_what_a_picture_is(string hex, string? type)
    {
        Assert.Equal(type is not null, Photo.TryTake(Convert.FromHexString(hex), out var photo, out var whyNot));
        Assert.Equal(type, photo?.MediaType);
        Assert.Equal(type is null, whyNot is not null);
    }

    [Fact]
    public void A_picture_that_is_too_large_is_refused_with_its_size()
    {
        var bytes = new byte[Photo.MostBytes + 1];
        (bytes[0], bytes[1], bytes[2]) = (0xFF, 0xD8, 0xFF);
        Assert.False(Photo.TryTake(bytes, out _, out var whyNot));
        Assert.Contains("8.4 MB", whyNot, StringComparison.Ordinal);
    }
}
