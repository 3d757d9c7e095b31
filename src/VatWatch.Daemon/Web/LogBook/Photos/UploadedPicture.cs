using System.Buffers;
using System.Diagnostics.CodeAnalysis;
using SkiaSharp;
using VatWatch.Charts.Reports;
using VatWatch.Sessions.Entries;

namespace VatWatch.Daemon.Web.LogBook.Photos;

/// <summary>A picture as it was sent, until it is drawn afresh. Its bytes lie outside the collector's memory and go when it is disposed of.</summary>
internal sealed class UploadedPicture : IDisposable
{
    /// <summary>Largest picture that is taken, bytes: what a phone's camera makes at full size.</summary>
    public const int MostBytes = 8 * 1024 * 1024;

    /// <summary>Pixels of the longer side of what is kept: fills any screen and half a printed page.</summary>
    private const int LongSide = 2000;

    private readonly SKDynamicMemoryWStream _bytes = new();
    private long _length;

    /// <summary>Takes in a stream to its end; what is more than <see cref="MostBytes"/> is counted and let go.</summary>
    public async Task AddAsync(Stream stream, CancellationToken cancel)
    {
        var piece = ArrayPool<byte>.Shared.Rent(64 * 1024);
        try
        {
            for (int read; (read = await stream.ReadAsync(piece, cancel)) > 0;)
            {
                _length += read;
                if (_length <= MostBytes)
                {
                    _bytes.Write(piece, read);
                }
            }
        }
        finally
        {
            ArrayPool<byte>.Shared.Return(piece);
        }
    }

    /// <summary>The photograph to keep.</summary>
    /// <param name="whyNot">Why there is none, as a sentence.</param>
    public bool TryDraw([NotNullWhen(true)] out Photo? photo, [NotNullWhen(false)] out string? whyNot)
    {
        photo = null;
        whyNot = _length switch
        {
            0 => "No picture came with the form; choose one.",
            > MostBytes => $"The picture has {_length / 1_000_000.0:0.0} MB; wanted at most {MostBytes / 1_000_000.0:0.0} MB.",
            _ => null,
        };
        if (whyNot is not null)
        {
            return false;
        }

        using var data = _bytes.DetachAsData();
        using var file = data.AsStream();
        if (UprightJpeg.TryMake(file, LongSide, out var picture, out var why))
        {
            photo = new Photo(picture.Bytes);
            return true;
        }

        whyNot = $"{why.Capitalized()}.";
        return false;
    }

    public void Dispose() => _bytes.Dispose();
}
