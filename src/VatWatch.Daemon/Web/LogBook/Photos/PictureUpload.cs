using Microsoft.AspNetCore.Http.Features;
using Microsoft.AspNetCore.WebUtilities;
using Microsoft.Net.Http.Headers;
using VatWatch.Daemon.Web.Security;

namespace VatWatch.Daemon.Web.LogBook.Photos;

/// <summary>
/// Takes pictures that are larger than any other request may be, a few at a time. What comes is kept outside the collector's memory, which would hold on to it, and never in
/// the machine's temporary folder, where a kill would leave it. Thread safe.
/// </summary>
internal sealed class PictureUpload(TimeProvider time) : IDisposable
{
    /// <summary>Most of what a form puts around a picture, bytes.</summary>
    private const int MostAround = 64 * 1024;

    private const int MostFields = 64;
    private const int MostCharacters = 16 * 1024;

    /// <summary>Uploads at one time; each holds a picture of 8 MB in memory.</summary>
    private const int AtOnce = 2;

    /// <summary>A phone in the far corner of the studio takes this long for 8 MB; then its place is needed.</summary>
    private static readonly TimeSpan LongestUpload = TimeSpan.FromSeconds(90);

    private readonly SemaphoreSlim _places = new(AtOnce);

    /// <summary>Whether a request carries a picture in a form.</summary>
    public static bool IsForm(HttpRequest request) => request.ContentType?.StartsWith("multipart/form-data", StringComparison.OrdinalIgnoreCase) == true;

    /// <summary>Takes the picture that a body is, or that its form holds, and lets <paramref name="take"/> run with it; false when too many come at once.</summary>
    public async Task<bool> TakeAsync(HttpContext context, Func<UploadedPicture, Task> take)
    {
        if (!await _places.WaitAsync(TimeSpan.FromSeconds(5), context.RequestAborted))
        {
            return false;
        }

        try
        {
            ConnectionPlace.Keep(context);
            using var deadline = new CancellationTokenSource(LongestUpload, time);
            await using var ends = deadline.Token.Register(context.Abort);
            if (context.Features.Get<IHttpMaxRequestBodySizeFeature>() is { IsReadOnly: false } limit)
            {
                limit.MaxRequestBodySize = UploadedPicture.MostBytes + MostAround;
            }

            using var picture = new UploadedPicture();
            if (IsForm(context.Request))
            {
                await ReadFormAsync(context, picture);
            }
            else
            {
                await picture.AddAsync(context.Request.Body, context.RequestAborted);
            }

            await take(picture);
            return true;
        }
        finally
        {
            _places.Release();
        }
    }

    /// <summary>Reads the form as the framework would, but for where the picture goes. One that cannot be read is left without fields, so that no token is found in it.</summary>
    private static async Task ReadFormAsync(HttpContext context, UploadedPicture picture)
    {
        context.Request.Form = FormCollection.Empty;
        if (!MediaTypeHeaderValue.TryParse(context.Request.ContentType, out var type) || HeaderUtilities.RemoveQuotes(type.Boundary).Value is not { Length: > 0 } boundary)
        {
            return;
        }

        try
        {
            var fields = new KeyValueAccumulator();
            var reader = new MultipartReader(boundary, context.Request.Body);
            while (await reader.ReadNextSectionAsync(context.RequestAborted) is { } section)
            {
                if (section.AsFileSection() is { FileName.Length: > 0 })
                {
                    await picture.AddAsync(section.Body, context.RequestAborted);
                }
                else if (section.AsFormDataSection() is { } field && fields.ValueCount < MostFields)
                {
                    fields.Append(field.Name, await TextAsync(section.Body, context.RequestAborted));
                }
            }

            context.Request.Form = new FormCollection(fields.GetResults());
        }
        catch (Exception unreadable) when (unreadable is InvalidDataException or IOException and not BadHttpRequestException)
        {
        }
    }

    private static async Task<string> TextAsync(Stream body, CancellationToken cancel)
    {
        using var reader = new StreamReader(body);
        var text = new char[MostCharacters + 1];
        var read = await reader.ReadBlockAsync(text, cancel);
        return read <= MostCharacters ? new string(text, 0, read) : throw new InvalidDataException($"a field has more than {MostCharacters} characters");
    }

    public void Dispose() => _places.Dispose();
}
