using System.Globalization;

namespace VatWatch.Testing;

/// <summary>How <c>mosquitto_sub</c> and <c>mosquitto_pub</c> reach a broker.</summary>
/// <param name="Port">Port on this machine.</param>
/// <param name="User">User; null for none.</param>
/// <param name="Password">Password.</param>
/// <param name="CaFile">Authority for TLS; null for plain TCP.</param>
internal sealed record MqttAccess(int Port, string? User = null, string? Password = null, string? CaFile = null)
{
    /// <summary>The arguments, MQTT 5 included.</summary>
    public IEnumerable<string> Arguments =>
    [
        "-V", "5", "-h", CaFile is null ? "127.0.0.1" : "localhost", "-p", Port.ToString(CultureInfo.InvariantCulture),
        .. User is null ? Array.Empty<string>() : ["-u", User, "-P", Password ?? ""],
        .. CaFile is null ? Array.Empty<string>() : ["--cafile", CaFile],
    ];
}
