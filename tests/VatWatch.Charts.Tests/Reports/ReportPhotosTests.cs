using Microsoft.Extensions.Logging.Abstractions;
using SkiaSharp;
using VatWatch.Charts.Reports;
using VatWatch.Sessions;
using VatWatch.Sessions.Entries;
using VatWatch.Store;

namespace VatWatch.Charts.Tests.Reports;

public sealed class ReportPhotosTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("vatwatch-photos").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    [Fact]
    public async Task Photographs_of_the_session_are_made_small_and_stand_upright()
    {
        var photos = await PhotosAsync(
            (Picture(2000, 1200, SKEncodedImageFormat.Jpeg), "wide"),
            (Turned(Picture(600, 400, SKEncodedImageFormat.Jpeg)), "held upright"),
            (Picture(300, 200, SKEncodedImageFormat.Png), ""));

        Assert.Equal([("wide", 1000, 600), ("held upright", 400, 600), ("", 300, 200)], photos.Select(photo => (photo.Caption, photo.Width, photo.Height)));
        foreach (var photo in photos)
        {
            using var read = SKBitmap.Decode(photo.Jpeg);
            Assert.Equal((photo.Width, photo.Height), (read.Width, read.Height));
        }

        // Red was the left edge of the picture; turned by a quarter to the right it is the top one.
        using var upright = SKBitmap.Decode(photos[1].Jpeg);
        Assert.True(upright.GetPixel(200, 20).Red > 200 && upright.GetPixel(200, 580).Red < 80);
    }

    [Fact]
    public async Task What_cannot_be_read_is_left_out()
    {
        var photos = await PhotosAsync(([0xFF, 0xD8, 0xFF, 0xE0, 1, 2, 3], "broken"), (Picture(30, 20, SKEncodedImageFormat.Png), "whole"));
        Assert.Equal("whole", Assert.Single(photos).Caption);
    }

    private async Task<IReadOnlyList<ReportPhoto>> PhotosAsync(params (byte[] Bytes, string Text)[] pictures)
    {
        await using var store = WatchStore.Open(_folder, new StoreOptions { KeepReadings = TimeSpan.FromDays(3650) }, TimeProvider.System, NullLogger<WatchStore>.Instance);
        using var stop = new CancellationTokenSource();
        var running = store.RunAsync(stop.Token);
        var told = MorningOfDips.Session;
        await store.WriteAsync(
            work =>
            {
                var session = SessionTable.Start(work, told.Vat, new DateOnly(2026, 3, 6), told.Started, "anyone", told.Details);
                foreach (var (bytes, text) in pictures)
                {
                    Photo.TryTake(bytes, out var photo, out _);
                    EntryTable.Write(work, new EntryDraft(told.Vat, EntryKind.Photo, "anyone") { Photo = photo, Text = text }, session.Id, told.Started.Plus(TimeSpan.FromMinutes(5)));
                }

                SessionTable.End(work, told.Vat, session.Id, told.Ended!.Value);
                return 0;
            },
            TestContext.Current.CancellationToken);
        await stop.CancelAsync();
        await running.ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
        using var reader = StoreReader.OpenFolder(_folder);
        return ReportPhotos.AddTo(StoredRecord.OfSession(reader, NightOfWarming.Vat, DisplayUnits.Si, told.Id)!, reader).Photos;
    }

    // Red on its left quarter.
    private static byte[] Picture(int width, int height, SKEncodedImageFormat format)
    {
        using var bitmap = new SKBitmap(width, height);
        using (var canvas = new SKCanvas(bitmap))
        {
            canvas.Clear(SKColors.DarkBlue);
            using var red = new SKPaint { Color = SKColors.Red };
            canvas.DrawRect(0, 0, width / 4f, height, red);
        }

        using var data = bitmap.Encode(format, 90);
        return data.ToArray();
    }

    // With an APP1 segment of one tag: Exif orientation (0x0112) 6, "the 0th row is the right-hand side" (Exif 2.3, 4.6.4).
    private static byte[] Turned(byte[] jpeg)
    {
        byte[] exif =
        [
            0xFF, 0xE1, 0x00, 0x22, .. "Exif\0\0"u8, .. "MM\0*"u8, 0, 0, 0, 8, 0, 1, 0x01, 0x12, 0, 3, 0, 0, 0, 1, 0, 6, 0, 0, 0, 0, 0, 0,
        ];
        return [.. jpeg[..2], .. exif, .. jpeg[2..]];
    }
}
