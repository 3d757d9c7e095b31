using System.Security.Cryptography;
using Microsoft.Net.Http.Headers;

namespace VatWatch.Daemon.Web.Assets;

/// <summary>Style sheet, script and mark. They lie inside the program, so they are there however it is started. Thread safe.</summary>
internal sealed class AssetFiles
{
    private static readonly Dictionary<string, string> Types = new(StringComparer.Ordinal)
    {
        ["vatwatch.css"] = "text/css; charset=utf-8",
        ["live.js"] = "text/javascript; charset=utf-8",
        ["logbook.css"] = "text/css; charset=utf-8",
        ["logbook.js"] = "text/javascript; charset=utf-8",
        ["mark.svg"] = "image/svg+xml",
    };

    private readonly Dictionary<string, (byte[] Bytes, string Version)> _files = Types.Keys.ToDictionary(name => name, Load, StringComparer.Ordinal);

    /// <summary>Adds the route.</summary>
    public static void Map(IEndpointRouteBuilder routes) =>
        routes.MapGet("/assets/{name}", (string name, HttpContext context, [Service] AssetFiles files) => files.Answer(name, context)).ExcludeFromDescription();

    /// <summary>Address of a file, which changes when the file does.</summary>
    public string Href(string name) => $"/assets/{name}?v={_files[name].Version}";

    private IResult Answer(string name, HttpContext context)
    {
        if (!_files.TryGetValue(name, out var file))
        {
            return TypedResults.NotFound();
        }

        context.Response.Headers.CacheControl = context.Request.Query["v"] == file.Version ? "public, max-age=31536000, immutable" : "no-cache";
        return TypedResults.Bytes(file.Bytes, Types[name], entityTag: new EntityTagHeaderValue($"\"{file.Version}\""));
    }

    private static (byte[] Bytes, string Version) Load(string name)
    {
        using var stream = typeof(AssetFiles).Assembly.GetManifestResourceStream($"assets/{name}")
            ?? throw new InvalidOperationException($"The program was built without its file {name}.");
        var bytes = new byte[stream.Length];
        stream.ReadExactly(bytes);
        return (bytes, Convert.ToHexStringLower(SHA256.HashData(bytes), 0, 6));
    }
}
