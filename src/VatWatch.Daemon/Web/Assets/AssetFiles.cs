using System.Collections.Concurrent;
using System.IO.Compression;
using System.Security.Cryptography;
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

    private readonly ConcurrentDictionary<string, Lazy<Asset>> _files = new(StringComparer.Ordinal);

    public static void Map(IEndpointRouteBuilder routes) =>
        routes.MapGet("/assets/{name}", (string name, HttpContext context, [Service] AssetFiles files) => files.Answer(name, context)).ExcludeFromDescription();

    /// <summary>Address of a file, which changes when the file does.</summary>
    public string Href(string name) => $"/assets/{name}?v={Find(name).Version}";

    private IResult Answer(string name, HttpContext context)
    {
        if (!Types.TryGetValue(name, out var type))
        {
            return TypedResults.NotFound();
        }

        var file = Find(name);
        var headers = context.Response.Headers;
        headers.CacheControl = context.Request.Query["v"] == file.Version ? "public, max-age=31536000, immutable" : "no-cache";
        headers.Vary = "Accept-Encoding";
        var tag = new EntityTagHeaderValue($"\"{file.Version}\"");
        if (context.Request.Headers.AcceptEncoding.ToString().Contains("gzip", StringComparison.OrdinalIgnoreCase))
        {
            headers.ContentEncoding = "gzip";
            return TypedResults.Bytes(file.Gzip, type, entityTag: tag);
        }

        return TypedResults.Bytes(Read(name), type, entityTag: tag);
    }

    private Asset Find(string name) => _files.GetOrAdd(name, static one => new(() => Load(one))).Value;

    private static Asset Load(string name)
    {
        var bytes = Read(name);
        using var packed = new MemoryStream();
        using (var gzip = new GZipStream(packed, CompressionLevel.Optimal))
        {
            gzip.Write(bytes);
        }

        return new(packed.ToArray(), Convert.ToHexStringLower(SHA256.HashData(bytes), 0, 6));
    }

    private static byte[] Read(string name)
    {
        using var stream = typeof(AssetFiles).Assembly.GetManifestResourceStream($"assets/{name}")
            ?? throw new InvalidOperationException($"The program was built without its file {name}.");
        var bytes = new byte[stream.Length];
        stream.ReadExactly(bytes);
        return bytes;
    }

    private sealed record Asset(byte[] Gzip, string Version);
}
