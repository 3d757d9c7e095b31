namespace VatWatch.Testing;

/// <summary>Publishes as a foreign client would: with <c>mosquitto_pub</c>.</summary>
internal static class MosquittoPub
{
    /// <summary>Publishes one message with QoS 1.</summary>
    public static Task<ToolRun> SendAsync(MqttAccess access, string topic, string payload, bool retain = false, string? responseTopic = null, string? correlation = null) =>
        ToolRun.RunAsync("mosquitto_pub",
        [
            .. access.Arguments, "-q", "1", "-t", topic, "-m", payload,
            .. retain ? ["-r"] : Array.Empty<string>(),
            .. responseTopic is null ? Array.Empty<string>() : ["-D", "publish", "response-topic", responseTopic],
            .. correlation is null ? Array.Empty<string>() : ["-D", "publish", "correlation-data", correlation],
        ]);
}
