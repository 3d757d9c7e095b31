using System.Net;
using System.Security.Cryptography.X509Certificates;
using MQTTnet.Adapter;
using MQTTnet.Diagnostics.Logger;
using MQTTnet.Formatter;
using MQTTnet.Packets;
using MQTTnet.Server;

namespace VatWatch.Notifications.Mqtt.Broker;

/// <summary>
/// Gives a name to clients of MQTT 3.1.1 that come without one, as §3.1.3.1 of that standard allows a broker to. The library refuses them
/// (5.2.0), and the usual command-line tools are such clients unless told otherwise. Clients of MQTT 5 are named in the regular way.
/// </summary>
internal sealed class NamingServerAdapter(IMqttServerAdapter inner) : IMqttServerAdapter
{
    public Func<IMqttChannelAdapter, Task> ClientHandler { get; set; } = _ => Task.CompletedTask;

    public Task StartAsync(MqttServerOptions options, IMqttNetLogger logger)
    {
        inner.ClientHandler = async channel =>
        {
            using var named = new NamingChannel(channel);
            await ClientHandler(named);
        };
        return inner.StartAsync(options, logger);
    }

    public Task StopAsync() => inner.StopAsync();

    public void Dispose() => inner.Dispose();

    private sealed class NamingChannel(IMqttChannelAdapter inner) : IMqttChannelAdapter
    {
        public long BytesReceived => inner.BytesReceived;

        public long BytesSent => inner.BytesSent;

        public X509Certificate2 ClientCertificate => inner.ClientCertificate;

        public EndPoint RemoteEndPoint => inner.RemoteEndPoint;

        public EndPoint LocalEndPoint => inner.LocalEndPoint;

        public bool IsSecureConnection => inner.IsSecureConnection;

        public MqttPacketFormatterAdapter PacketFormatterAdapter => inner.PacketFormatterAdapter;

        public Task ConnectAsync(CancellationToken cancellationToken) => inner.ConnectAsync(cancellationToken);

        public Task DisconnectAsync(CancellationToken cancellationToken) => inner.DisconnectAsync(cancellationToken);

        public Task SendPacketAsync(MqttPacket packet, CancellationToken cancellationToken) => inner.SendPacketAsync(packet, cancellationToken);

        public void ResetStatistics() => inner.ResetStatistics();

        public void Dispose() => inner.Dispose();

        public async Task<MqttPacket> ReceivePacketAsync(CancellationToken cancellationToken)
        {
            var packet = await inner.ReceivePacketAsync(cancellationToken);
            if (packet is MqttConnectPacket { ClientId: null or "", CleanSession: true } connect && PacketFormatterAdapter.ProtocolVersion == MqttProtocolVersion.V311)
            {
                connect.ClientId = BuiltinBroker.NewClientName();
            }

            return packet;
        }
    }
}
