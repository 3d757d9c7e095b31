using SkiaSharp;
using VatWatch.Charts.Tests;
using VatWatch.Daemon.Web.LogBook.Photos;

namespace VatWatch.Daemon.Tests.Web.LogBook.Photos;

public sealed class UploadedPictureTests
{
    [Fact]
    public async Task What_came_in_pieces_is_drawn()
    {
        using var picture = new UploadedPicture();
        await picture.AddAsync(new MemoryStream(Pictures.Of(4000, 2000, SKEncodedImageFormat.Jpeg)), TestContext.Current.CancellationToken);

        Assert.True(picture.TryDraw(out var photo, out _));
        using var read = SKCodec.Create(new MemoryStream(photo.Jpeg));
        Assert.Equal((2000, 1000), (read.Info.Width, read.Info.Height));
    }

    [Theory]
    [InlineData(0, "No picture came with the form; choose one.")]
    [InlineData(9_000_000, "The picture has 9.0 MB; wanted at most 8.4 MB.")]
    [InlineData(100, "The file is no picture that can be kept; wanted JPEG, PNG or WebP.")]
    public async Task What_is_no_picture_is_refused_with_a_sentence(int bytes, string sentence)
    {
        using var picture = new UploadedPicture();
        await picture.AddAsync(new MemoryStream(new byte[bytes]), TestContext.Current.CancellationToken);

        Assert.False(picture.TryDraw(out _, out var whyNot));
        Assert.Equal(sentence, whyNot);
    }
}
