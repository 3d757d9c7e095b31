using Microsoft.AspNetCore.Http.Features;
using VatWatch.Sessions.Entries;

namespace VatWatch.Daemon.Web.LogBook;

/// <summary>Takes pictures that are larger than any other request may be, a few at a time, so that they never fill the memory of a small board. Thread safe.</summary>
internal sealed class PictureUpload(TimeProvider time) : IDisposable
{
    /// <summary>Largest request with a picture: what a form puts around it included.</summary>
    public const int MostBytes = Photo.MostBytes + (64 * 1024);

    /// <summary>Uploads at one time; each holds a picture of 8 MB in memory.</summary>
    private const int AtOnce = 2;

    /// <summary>A phone in the far corner of the studio takes this long for 8 MB; then its place is needed.</summary>
    private static readonly TimeSpan LongestUpload = TimeSpan.FromSeconds(90);

    private readonly SemaphoreSlim _places = new(AtOnce);

    /// <summary>Whether a request carries a picture.</summary>
    public static bool Carries(HttpRequest request) => request.ContentType?.StartsWith("multipart/form-data", StringComparison.OrdinalIgnoreCase) == true;

    /// <summary>Lets the request be as large as a picture while <paramref name="take"/> runs; false when too many come at once.</summary>
    public async Task<bool> TakeAsync(HttpContext context, Func<Task> take)
    {
        if (!await _places.WaitAsync(TimeSpan.FromSeconds(5), context.RequestAborted))
        {
            return false;
        }

        try
        {
            using var deadline = new CancellationTokenSource(LongestUpload, time);
            await using var ends = deadline.Token.Register(context.Abort);
            if (context.Features.Get<IHttpMaxRequestBodySizeFeature>() is { IsReadOnly: false } limit)
            {
                limit.MaxRequestBodySize = MostBytes;
            }

            await take();
            return true;
        }
        finally
        {
            _places.Release();
        }
    }

    /// <summary>The picture of a form; null with the reason.</summary>
    public static async Task<(Photo? Photo, string WhyNot)> ReadAsync(IFormFile? file, CancellationToken cancel)
    {
        if (file is null || file.Length == 0)
        {
            return (null, "No picture came with the form; choose one.");
        }

        if (file.Length > Photo.MostBytes)
        {
            return (null, $"The picture has {file.Length / 1_000_000.0:0.0} MB; wanted at most {Photo.MostBytes / 1_000_000.0:0.0} MB.");
        }

        var bytes = new byte[file.Length];
        await using var stream = file.OpenReadStream();
        await stream.ReadExactlyAsync(bytes, cancel);
        return Photo.TryTake(bytes, out var photo, out var whyNot) ? (photo, "") : (null, $"{char.ToUpperInvariant(whyNot[0])}{whyNot[1..]}.");
    }

    public void Dispose() => _places.Dispose();
}
