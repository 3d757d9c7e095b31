using VatWatch.Sessions.Entries;

namespace VatWatch.Tests.Sessions.Entries;

public sealed class PhotoTests
{
    [Theory]
    [InlineData(0, 0, null)]
    [InlineData(199, 1_999_999_000, null)]
    [InlineData(200, 0, "200 photographs were kept within a day; wanted at most 200.")]
    [InlineData(0, 1_999_999_001, "The photographs of the log book take 2.0 GB; wanted at most 2 GB")]
    public void Photographs_leave_room_for_the_readings(long lastDay, long bytes, string? sentence)
    {
        var whyNot = new Photo(new byte[1000]).WhyNotBeside(lastDay, bytes);
        if (sentence is null)
            Assert.Null(whyNot);
        else
            Assert.StartsWith(sentence, whyNot, StringComparison.Ordinal);
    }
}
