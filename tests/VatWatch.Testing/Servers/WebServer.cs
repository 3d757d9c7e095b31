using System.Text.Json;

namespace VatWatch.Testing.Servers;

/// <summary>A real web server in another process (<c>web_server.py</c>).</summary>
internal sealed class WebServer : IAsyncDisposable
{
    private readonly PythonServer _server;

    private WebServer(PythonServer server) => _server = server;

    /// <summary>Its port.</summary>
    public int Port => _server.Port;

    /// <summary>Requests taken, in order.</summary>
    public IReadOnlyList<TakenRequest> Requests => [.. _server.Taken.Select(TakenRequest.Parse)];

    /// <summary>Starts it.</summary>
    public static async Task<WebServer> StartAsync() => new(await PythonServer.StartAsync("web_server.py"));

    /// <summary>Sends a command of the script's head.</summary>
    public Task TellAsync(string command) => _server.TellAsync(command);

    /// <summary>Waits until so many requests were taken, and gives them.</summary>
    public async Task<IReadOnlyList<TakenRequest>> WaitForAsync(int count, TimeSpan? limit = null)
    {
        await Eventually.TrueAsync(() => _server.Taken.Count >= count, $"{count} requests are taken; {_server.Taken.Count} were", limit);
        return Requests;
    }

    public ValueTask DisposeAsync() => _server.DisposeAsync();

    /// <summary>One request as the server had it; names of headers in lower case.</summary>
    internal sealed record TakenRequest(string Path, IReadOnlyDictionary<string, string> Headers, byte[] Body)
    {
        internal static TakenRequest Parse(string line)
        {
            using var json = JsonDocument.Parse(line);
            var root = json.RootElement;
            return new(
                root.GetProperty("path").GetString()!,
                root.GetProperty("headers").EnumerateObject().ToDictionary(header => header.Name, header => header.Value.GetString()!),
                root.GetProperty("body").GetBytesFromBase64());
        }
    }
}
