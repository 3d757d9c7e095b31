using System.Text.Json.Serialization;
using VatWatch.Measurements;

namespace VatWatch.Notifications.Mqtt;

/// <summary>
/// One record of a SenML pack (RFC 8428). A measurement becomes the value under the probe's name, its quality under
/// <c>{probe}/quality</c> and, unless it is good, the reason under <c>{probe}/reason</c>. RFC 8428 §4.2 asks for exactly one value in
/// every record, so a measurement without a number has no record of its own name and is never mistaken for a zero.
/// </summary>
/// <remarks>
/// Units: Cel, pH and / of RFC 8428 §12.1; mV of RFC 8798 §3 (secondary units). "%" is not used: in RFC 8428 it is another name for "/",
/// with 1 meaning all of it. Names in the sense of §4.5.1 are the topic of the vat followed by the probe.
/// </remarks>
internal sealed record SenMlRecord
{
    /// <summary>Base name: what every name of the pack begins with.</summary>
    [JsonPropertyName("bn"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? BaseName { get; init; }

    /// <summary>Base time, seconds since 1970 UTC.</summary>
    [JsonPropertyName("bt"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public decimal? BaseTime { get; init; }

    /// <summary>Name after the base name.</summary>
    [JsonPropertyName("n")]
    public required string Name { get; init; }

    /// <summary>Unit of <see cref="Value"/>.</summary>
    [JsonPropertyName("u"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? Unit { get; init; }

    /// <summary>A number.</summary>
    [JsonPropertyName("v"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public double? Value { get; init; }

    [JsonPropertyName("vs"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? Text { get; init; }

    /// <summary>On or off.</summary>
    [JsonPropertyName("vb"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public bool? Flag { get; init; }

    /// <summary>The pack of one measurement; base fields stand in its first record.</summary>
    public static SenMlRecord[] Pack(MqttTopics topics, Measurement measurement)
    {
        List<SenMlRecord> records = [];
        var probe = measurement.Probe.Value;
        if (measurement.Value.Rounded() is { } value)
        {
            records.Add(Number(measurement.Quantity, probe, value));
        }

        records.Add(new() { Name = $"{probe}/quality", Text = measurement.Quality.Word() });
        if (measurement.Reason is { } reason)
        {
            records.Add(new() { Name = $"{probe}/reason", Text = reason });
        }

        if (!measurement.Stamp.UtcTrusted)
        {
            records.Add(new() { Name = $"{probe}/clock-trusted", Flag = false });
        }

        records[0] = records[0] with
        {
            BaseName = $"{topics.Prefix}/{measurement.Vat}/",
            BaseTime = measurement.Stamp.Utc.ToUnixTimeMilliseconds() / 1000m,
        };
        return [.. records];
    }

    private static SenMlRecord Number(Quantity measures, string name, double value) => measures switch
    {
        Quantity.Temperature or Quantity.Ambient => new() { Name = name, Unit = "Cel", Value = value },
        Quantity.Ph => new() { Name = name, Unit = "pH", Value = value },
        Quantity.Orp => new() { Name = name, Unit = "mV", Value = value },
        Quantity.Heater or Quantity.HeaterCommand => new() { Name = name, Flag = QuantityText.IsHeating(value) },
        Quantity.Level => new() { Name = name, Unit = "/", Value = Math.Round(value / 100, 4) },
        _ => throw new ArgumentOutOfRangeException(nameof(measures), measures, "is not a measured quantity"),
    };
}
