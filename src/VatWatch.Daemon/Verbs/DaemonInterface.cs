using System.Net.Sockets;
using System.Text.Json;
using System.Text.Json.Serialization.Metadata;
using VatWatch.Daemon.Web;
using VatWatch.Daemon.Web.Api;

namespace VatWatch.Daemon.Verbs;

/// <summary>The interface of the daemon that uses a data folder, asked over the socket there.</summary>
internal sealed class DaemonInterface(string folder) : IDisposable
{
    /// <summary>A daemon that starts holds its folder some seconds before it listens.</summary>
    private static readonly TimeSpan Start = TimeSpan.FromSeconds(10);

    /// <summary>The daemon waits up to 10 s for its disk.</summary>
    private static readonly TimeSpan Patience = Start + TimeSpan.FromSeconds(15);

    private readonly HttpClient _http = new(new SocketsHttpHandler { ConnectCallback = (_, cancel) => ConnectAsync(LocalSocket.PathIn(folder), cancel), UseProxy = false })
    {
        BaseAddress = new("http://localhost"),
        Timeout = Patience,
    };

    /// <summary>Posts a body.</summary>
    /// <returns>The reply; or none and the daemon's own sentence why it did nothing.</returns>
    /// <exception cref="DaemonUnreachableException">Nobody answered; a sentence.</exception>
    public async Task<(TReply? Reply, string? Refusal)> PostAsync<TBody, TReply>(
        string path, TBody body, JsonTypeInfo<TBody> bodyShape, JsonTypeInfo<TReply> replyShape, CancellationToken cancel)
        where TReply : class
    {
        if (LocalSocket.FaultOf(LocalSocket.PathIn(folder)) is { } tooLong)
        {
            throw new DaemonUnreachableException($"the running VatWatch cannot be asked: {tooLong}.");
        }

        try
        {
            using var answer = await _http.PostAsJsonAsync(path, body, bodyShape, cancel);
            return answer.IsSuccessStatusCode
                ? (await answer.Content.ReadFromJsonAsync(replyShape, cancel), null)
                : (null, (await answer.Content.ReadFromJsonAsync(ApiJson.Default.ProblemDetails, cancel))?.Detail ?? $"The answer is {(int)answer.StatusCode}.");
        }
        catch (OperationCanceledException caught) when (!cancel.IsCancellationRequested)
        {
            throw new DaemonUnreachableException(
                $"the VatWatch that uses '{folder}' has not answered within {Patience.TotalSeconds} s; it may still do what was asked; look at the alarm and at the daemon's log.", caught);
        }
        catch (Exception caught) when (caught is HttpRequestException or JsonException or IOException)
        {
            throw new DaemonUnreachableException(Explain(caught), caught);
        }
    }

    public void Dispose() => _http.Dispose();

    private static async ValueTask<Stream> ConnectAsync(string path, CancellationToken cancel)
    {
        for (var begun = TimeProvider.System.GetTimestamp(); ;)
        {
            var socket = new Socket(AddressFamily.Unix, SocketType.Stream, ProtocolType.Unspecified);
            try
            {
                await socket.ConnectAsync(new UnixDomainSocketEndPoint(path), cancel);
                return new NetworkStream(socket, ownsSocket: true);
            }
            catch (SocketException away) when (away.SocketErrorCode != SocketError.AccessDenied && TimeProvider.System.GetElapsedTime(begun) <= Start)
            {
                socket.Dispose();
            }
            catch
            {
                socket.Dispose();
                throw;
            }

            await Task.Delay(TimeSpan.FromMilliseconds(100), TimeProvider.System, cancel);
        }
    }

    private string Explain(Exception caught)
    {
        for (var inner = caught; inner is not null; inner = inner.InnerException)
        {
            if (inner is SocketException { SocketErrorCode: SocketError.AccessDenied })
            {
                return $"this user may not write to '{LocalSocket.PathIn(folder)}', through which the running VatWatch is asked; wanted the daemon's user, one of its group, or root (sudo).";
            }
        }

        return $"the VatWatch that uses '{folder}' does not answer on '{LocalSocket.PathIn(folder)}'; its log tells why it has no socket.";
    }
}

/// <summary>The running daemon could not be asked; the message is a sentence.</summary>
internal sealed class DaemonUnreachableException(string message, Exception? inner = null) : Exception(message, inner);
