using System.Collections.Concurrent;
using System.IO.Compression;
using Microsoft.Net.Http.Headers;

namespace VatWatch.Daemon.Web.Assets;

/// <summary>
/// Style sheets, scripts and the mark. They lie inside the program, so they are there however it is started. A file is compressed when it is first asked
/// for, and only that copy stays in memory. Thread safe.
/// </summary>
internal sealed class AssetFiles
{
    private const string Style = "text/css; charset=utf-8";
    private const string Script = "text/javascript; charset=utf-8";

    private static readonly Dictionary<string, string> Types = new(StringComparer.Ordinal)
    {
        ["vatwatch.css"] = Style,
        ["live.js"] = Script,
        ["chart.js"] = Script,
        ["echarts.js"] = Script,
        ["settings.js"] = Script,
        ["bedside.css"] = Style,
        ["bedside.js"] = Script,
        ["logbook.css"] = Style,
        ["logbook.js"] = Script,
        ["taps.js"] = Script,
        ["mark.svg"] = "image/svg+xml",
    };

    /// <summary>Of the program that carries them: its compiler makes this of all that is in it.</summary>
    private static readonly string Version = typeof(AssetFiles).Module.ModuleVersionId.ToString("n")[..12];

    private readonly ConcurrentDictionary<string, Lazy<byte[]>> _packed = new(StringComparer.Ordinal);

    public static void Map(IEndpointRouteBuilder routes) =>
        routes.MapGet("/assets/{name}", (string name, HttpContext context, [Service] AssetFiles files) => files.Answer(name, context)).ExcludeFromDescription();

    /// <summary>Address of a file, which changes when the program does.</summary>
    public static string Href(string name) => $"/assets/{name}?v={Version}";

    private IResult Answer(string name, HttpContext context)
    {
        if (!Types.TryGetValue(name, out var type))
        {
            return TypedResults.NotFound();
        }

        var headers = context.Response.Headers;
        headers.CacheControl = context.Request.Query["v"] == Version ? "public, max-age=31536000, immutable" : "no-cache";
        headers.Vary = "Accept-Encoding";
        var tag = new EntityTagHeaderValue($"\"{Version}\"");
        if (context.Request.Headers.AcceptEncoding.ToString().Contains("gzip", StringComparison.OrdinalIgnoreCase))
        {
            headers.ContentEncoding = "gzip";
            return TypedResults.Bytes(_packed.GetOrAdd(name, static one => new(() => Pack(Read(one)))).Value, type, entityTag: tag);
        }

        return TypedResults.Bytes(Read(name), type, entityTag: tag);
    }

    private static byte[] Pack(byte[] bytes)
    {
        using var packed = new MemoryStream();
        using (var gzip = new GZipStream(packed, CompressionLevel.Optimal))
        {
            gzip.Write(bytes);
        }

        return packed.ToArray();
    }

    private static byte[] Read(string name)
    {
        using var stream = typeof(AssetFiles).Assembly.GetManifestResourceStream($"assets/{name}")
            ?? throw new InvalidOperationException($"The program was built without its file {name}.");
        var bytes = new byte[stream.Length];
        stream.ReadExactly(bytes);
        return bytes;
    }
}
