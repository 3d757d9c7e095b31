using System.Net;
using System.Net.Sockets;
using MQTTnet.Adapter;
using MQTTnet.Diagnostics.Logger;
using MQTTnet.Formatter;
using MQTTnet.Implementations;
using MQTTnet.Server;

namespace VatWatch.Notifications.Mqtt;

/// <summary>
/// The port of the built-in broker. In place of the library's own, which bounds neither how many strangers it holds nor what each of them may
/// announce (5.2.0): here a connection too many is closed at once, and a packet too large ends its connection before memory is set aside for it.
/// </summary>
internal sealed class BoundedServerAdapter(IPEndPoint listen, int mostConnections, int mostPacketBytes) : IMqttServerAdapter
{
    private const int Backlog = 100;
    private readonly CancellationTokenSource _stop = new();
    private Socket? _listener;
    private Task _accepting = Task.CompletedTask;
    private int _open;

    public Func<IMqttChannelAdapter, Task> ClientHandler { get; set; } = _ => Task.CompletedTask;

    /// <exception cref="SocketException">The port cannot be opened.</exception>
    public Task StartAsync(MqttServerOptions options, IMqttNetLogger logger)
    {
        var listener = new Socket(listen.AddressFamily, SocketType.Stream, ProtocolType.Tcp);
        try
        {
            listener.Bind(listen);
            listener.Listen(Backlog);
        }
        catch (SocketException)
        {
            listener.Dispose();
            throw;
        }

        _listener = listener;
        _accepting = Task.Run(() => AcceptAsync(listener, options, logger), _stop.Token);
        return Task.CompletedTask;
    }

    public async Task StopAsync()
    {
        await _stop.CancelAsync();
        _listener?.Dispose();
        try
        {
            await _accepting;
        }
        catch (OperationCanceledException)
        {
            // That is how it ends.
        }
    }

    public void Dispose()
    {
        _stop.Cancel();
        _listener?.Dispose();
        _stop.Dispose();
    }

    private async Task AcceptAsync(Socket listener, MqttServerOptions options, IMqttNetLogger logger)
    {
        while (!_stop.IsCancellationRequested)
        {
            try
            {
                Take(await listener.AcceptAsync(_stop.Token), options, logger);
            }
            catch (ObjectDisposedException)
            {
                return;
            }
            catch (SocketException)
            {
                // The visitor went, or this process has no file left for it; the next one may fare better.
                await Task.Delay(TimeSpan.FromMilliseconds(100), TimeProvider.System, _stop.Token);
            }
        }
    }

    private void Take(Socket visitor, MqttServerOptions options, IMqttNetLogger logger)
    {
        if (Interlocked.Increment(ref _open) > mostConnections)
        {
            Interlocked.Decrement(ref _open);
            visitor.Dispose();
            return;
        }

        _ = Task.Run(() => ServeAsync(visitor, options, logger), CancellationToken.None);
    }

    private async Task ServeAsync(Socket visitor, MqttServerOptions options, IMqttNetLogger logger)
    {
        try
        {
            visitor.NoDelay = true;
            using var stream = new PacketBound(new NetworkStream(visitor, ownsSocket: true), mostPacketBytes);
            var formatter = new MqttPacketFormatterAdapter(new MqttBufferWriter(options.WriterBufferSize, options.WriterBufferSizeMax));
            using var channel = new MqttChannelAdapter(new MqttTcpChannel(stream, visitor.LocalEndPoint, visitor.RemoteEndPoint, null), formatter, logger);
            await ClientHandler(channel);
        }
        catch (Exception wrong)
        {
            // One visitor's connection, whatever happened to it, ends here and touches nobody else's.
            logger.Publish(MqttNetLogLevel.Verbose, nameof(BoundedServerAdapter), "A connection ended", null, wrong);
        }
        finally
        {
            visitor.Dispose();
            Interlocked.Decrement(ref _open);
        }
    }
}
