using System.Net.Security;
using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;
using MQTTnet;
using MQTTnet.Formatter;
using MQTTnet.Protocol;
using VatWatch.Vats.Configuration;

namespace VatWatch.Notifications.Mqtt;

/// <summary>Makes the client library's settings for one connection; password and authority are read from their files each time.</summary>
internal static class ClientSettings
{
    /// <summary>The broker may have this many commands under way to us; more wait with the broker.</summary>
    private const ushort CommandsUnderWay = 10;

    /// <summary>Largest packet the broker may send us: a command with its topics and properties.</summary>
    private const uint LargestPacket = 8 * 1024;

    /// <summary>Settings for <paramref name="options"/>; throws <see cref="BrokerLostException"/> when a named file is of no use.</summary>
    public static MqttClientOptions Make(MqttOptions options, string clientId, MqttApplicationMessage will, MqttTimings timings)
    {
        var builder = new MqttClientOptionsBuilder()
            .WithProtocolVersion(MqttProtocolVersion.V500)
            .WithEndPoint(options.Target)
            .WithClientId(clientId)
            .WithCleanStart(false)
            .WithSessionExpiryInterval((uint)timings.SessionExpiry.TotalSeconds)
            .WithKeepAlivePeriod(timings.KeepAlive)
            .WithTimeout(timings.Leave)
            .WithReceiveMaximum(CommandsUnderWay)
            .WithMaximumPacketSize(LargestPacket)
            .WithWillTopic(will.Topic)
            .WithWillPayload(will.Payload.FirstSpan.ToArray())
            .WithWillContentType(will.ContentType)
            .WithWillPayloadFormatIndicator(will.PayloadFormatIndicator)
            .WithWillRetain()
            .WithWillQualityOfServiceLevel(MqttQualityOfServiceLevel.AtLeastOnce);
        if (options.User is { } user)
        {
            builder.WithCredentials(user, SecretFile.TryRead(options.PasswordFile!, out var fault) ?? throw new BrokerLostException(fault) { NeedsPerson = true });
        }

        if (options.Tls)
        {
            var authorities = options.CaFile is { } file ? ReadAuthorities(file) : null;
            builder.WithTlsOptions(tls => tls
                .UseTls()
                .WithTargetHost(options.Host)
                .WithCertificateValidationHandler(seen => IsTrusted(seen, authorities)));
        }

        return builder.Build();
    }

    private static X509Certificate2Collection ReadAuthorities(string file)
    {
        var authorities = new X509Certificate2Collection();
        try
        {
            authorities.ImportFromPemFile(file);
        }
        catch (Exception wrong) when (wrong is IOException or UnauthorizedAccessException or CryptographicException)
        {
            throw new BrokerLostException($"file {file} of mqtt.caFile cannot be read; wanted certificates in PEM", wrong) { NeedsPerson = true };
        }

        return authorities.Count > 0
            ? authorities
            : throw new BrokerLostException($"file {file} of mqtt.caFile holds no certificate; wanted certificates in PEM") { NeedsPerson = true };
    }

    /// <summary>
    /// The certificate must be for the name we asked for and lead to an authority: one of <paramref name="authorities"/> and no other when
    /// they are given. Revocation is not asked for: a studio's own authority has no list, and no network may be there to ask.
    /// </summary>
    private static bool IsTrusted(MqttClientCertificateValidationEventArgs seen, X509Certificate2Collection? authorities)
    {
        if (authorities is null || seen.SslPolicyErrors.HasFlag(SslPolicyErrors.RemoteCertificateNameMismatch))
        {
            return seen.SslPolicyErrors == SslPolicyErrors.None;
        }

        if (seen.Certificate is not X509Certificate2 certificate)
        {
            return false;
        }

        using var chain = new X509Chain();
        chain.ChainPolicy.TrustMode = X509ChainTrustMode.CustomRootTrust;
        chain.ChainPolicy.CustomTrustStore.AddRange(authorities);
        chain.ChainPolicy.RevocationMode = X509RevocationMode.NoCheck;
        chain.ChainPolicy.ApplicationPolicy.Add(new Oid(ServerAuthentication));
        if (seen.Chain is { } sent)
        {
            chain.ChainPolicy.ExtraStore.AddRange(sent.ChainElements.Select(element => element.Certificate).ToArray());
        }

        return chain.Build(certificate);
    }

    /// <summary>Extended key usage of a server, RFC 5280 §4.2.1.12.</summary>
    private const string ServerAuthentication = "1.3.6.1.5.5.7.3.1";
}
