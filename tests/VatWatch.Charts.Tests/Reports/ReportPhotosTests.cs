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
            (Pictures.Of(2000, 1200, SKEncodedImageFormat.Jpeg), "wide"),
            (Pictures.HeldUpright(Pictures.Of(600, 400, SKEncodedImageFormat.Jpeg)), "held upright"),
            (Pictures.Of(300, 200, SKEncodedImageFormat.Png), ""));

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
        var photos = await PhotosAsync(([0xFF, 0xD8, 0xFF, 0xE0, 1, 2, 3], "broken"), (Pictures.Of(30, 20, SKEncodedImageFormat.Png), "whole"));
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
                    EntryTable.Write(work, new EntryDraft(told.Vat, EntryKind.Photo, "anyone") { Photo = new(bytes), Text = text }, session.Id, told.Started.Plus(TimeSpan.FromMinutes(5)));
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
}
