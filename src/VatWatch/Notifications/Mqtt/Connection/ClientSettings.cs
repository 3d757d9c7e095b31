using MQTTnet;
using MQTTnet.Formatter;
using MQTTnet.Protocol;
using VatWatch.Vats.Configuration;

namespace VatWatch.Notifications.Mqtt.Connection;

/// <summary>Makes the client library's settings for one connection; password and authority are read from their files each time.</summary>
internal static class ClientSettings
{
    /// <summary>The broker may have this many commands under way to us; more wait with the broker.</summary>
    private const ushort CommandsUnderWay = 10;

    /// <summary>Largest packet the broker may send us: a command with its topics and properties.</summary>
    private const uint LargestPacket = 8 * 1024;

    /// <summary>Settings for <paramref name="options"/>, with a will or without; throws <see cref="BrokerLostException"/> when a named file is of no use.</summary>
    public static MqttClientOptions Make(MqttOptions options, string clientId, MqttApplicationMessage? will, MqttTimings timings)
    {
        var builder = new MqttClientOptionsBuilder()
            .WithProtocolVersion(MqttProtocolVersion.V500)
            .WithEndPoint(options.Target)
            .WithClientId(clientId)
            .WithCleanStart(false)
            .WithSessionExpiryInterval((uint)timings.SessionExpiry.TotalSeconds)
            .WithKeepAlivePeriod(timings.KeepAlive)
            .WithTimeout(timings.Leave)
            .WithoutPacketFragmentation()
            .WithReceiveMaximum(CommandsUnderWay)
            .WithMaximumPacketSize(LargestPacket);
        if (will is not null)
        {
            builder
                .WithWillTopic(will.Topic)
                .WithWillPayload(will.Payload.FirstSpan.ToArray())
                .WithWillContentType(will.ContentType)
                .WithWillPayloadFormatIndicator(will.PayloadFormatIndicator)
                .WithWillRetain()
                .WithWillQualityOfServiceLevel(MqttQualityOfServiceLevel.AtLeastOnce);
        }

        if (options.User is { } user)
        {
            builder.WithCredentials(user, SecretFile.TryRead(options.PasswordFile!, out var fault) ?? throw new BrokerLostException(fault) { NeedsPerson = true });
        }

        if (options.Tls)
        {
            var trust = CertificateTrust.TryRead(options.CaFile, out var wrong)
                ?? throw new BrokerLostException($"mqtt.caFile: {wrong}") { NeedsPerson = true };
            builder.WithTlsOptions(tls => tls
                .UseTls()
                .WithTargetHost(options.Host)
                .WithCertificateValidationHandler(seen => trust.Accepts(seen.Certificate, seen.Chain, seen.SslPolicyErrors)));
        }

        return builder.Build();
    }
}
