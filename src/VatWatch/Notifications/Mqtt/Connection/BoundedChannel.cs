using System.Buffers;
using System.Net;
using System.Security.Cryptography.X509Certificates;
using MQTTnet;
using MQTTnet.Adapter;
using MQTTnet.Channel;
using MQTTnet.Diagnostics.Logger;
using MQTTnet.Exceptions;
using MQTTnet.Formatter;
using MQTTnet.Implementations;

namespace VatWatch.Notifications.Mqtt.Connection;

/// <summary>
/// A connection that ends when the broker announces a packet larger than anything it has to say to us. The library (5.2.0) takes memory for as
/// much as is announced, up to 256 MB a packet, whatever the client had asked for.
/// </summary>
internal sealed class BoundedChannel(IMqttChannel inner) : IMqttChannel
{
    /// <summary>Bytes of the largest packet taken; a command has 1 KB at most, and one that is somewhat larger still gets its answer.</summary>
    public const int MostBytes = 4 * 1024 * 1024;

    private readonly PacketLength _length = new();

    public X509Certificate2 ClientCertificate => inner.ClientCertificate;

    public EndPoint RemoteEndPoint => inner.RemoteEndPoint;

    public EndPoint LocalEndPoint => inner.LocalEndPoint;

    public bool IsSecureConnection => inner.IsSecureConnection;

    public Task ConnectAsync(CancellationToken cancellationToken) => inner.ConnectAsync(cancellationToken);

    public Task DisconnectAsync(CancellationToken cancellationToken) => inner.DisconnectAsync(cancellationToken);

    public async Task<int> ReadAsync(byte[] buffer, int offset, int count, CancellationToken cancellationToken)
    {
        var read = await inner.ReadAsync(buffer, offset, count, cancellationToken);
        if (_length.Pass(buffer.AsSpan(offset, read)) is var announced && announced > MostBytes)
        {
            throw new MqttProtocolViolationException($"it announced a packet of {announced} bytes; wanted at most {MostBytes}");
        }

        return read;
    }

    public Task WriteAsync(ReadOnlySequence<byte> buffer, bool isEndOfPacket, CancellationToken cancellationToken) => inner.WriteAsync(buffer, isEndOfPacket, cancellationToken);

    public void Dispose() => inner.Dispose();
}

/// <summary>Makes the client library use <see cref="BoundedChannel"/>.</summary>
internal sealed class BoundedClientAdapterFactory : IMqttClientAdapterFactory
{
    public IMqttChannelAdapter CreateClientAdapter(MqttClientOptions options, MqttPacketInspector packetInspector, IMqttNetLogger logger)
    {
        var formatter = new MqttPacketFormatterAdapter(options.ProtocolVersion, new MqttBufferWriter(options.WriterBufferSize, options.WriterBufferSizeMax));
        return new MqttChannelAdapter(new BoundedChannel(new MqttTcpChannel(options)), formatter, logger)
        {
            AllowPacketFragmentation = options.AllowPacketFragmentation,
            PacketInspector = packetInspector,
        };
    }
}
