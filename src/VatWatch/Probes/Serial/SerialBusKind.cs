using System.IO.Ports;
using VatWatch.Probes.Serial.Ports;
using VatWatch.Vats.Configuration;

namespace VatWatch.Probes.Serial;

/// <summary>
/// The bus kind <c>serial</c>. Settings: <c>port</c>, and optionally <c>baud</c>, <c>parity</c>, <c>dataBits</c>, <c>stopBits</c>,
/// <c>dtr</c>, <c>rts</c>, <c>replyTimeout</c>, <c>reopenAfterSilence</c>; defaults and ranges are those of <see cref="SerialSettings"/>.
/// </summary>
public sealed class SerialBusKind : IBusKind
{
    /// <summary>The word of the configuration.</summary>
    public const string Name = "serial";

    private static readonly Dictionary<string, Parity> Parities = new(StringComparer.Ordinal)
    {
        ["none"] = Parity.None,
        ["even"] = Parity.Even,
        ["odd"] = Parity.Odd,
    };

    public string Word => Name;

    public BusPlan Read(BusId id, ConfigNode node)
    {
        var settings = new SerialSettings
        {
            Port = node.Text("port", "the path of a serial port, such as \"/dev/serial/by-id/...\""),
            Baud = node.Whole("baud", 300, 1_000_000, 9600),
            Parity = node.Choice("parity", Parities, Parity.None),
            DataBits = node.Whole("dataBits", 7, 8, 8),
            StopBits = node.Whole("stopBits", 1, 2, 1) == 2 ? StopBits.Two : StopBits.One,
            Dtr = node.Flag("dtr", false),
            Rts = node.Flag("rts", false),
            ReplyTimeout = node.Duration("replyTimeout", TimeSpan.FromMilliseconds(20), TimeSpan.FromSeconds(4), TimeSpan.FromSeconds(1)),
            ReopenAfterSilence = node.Duration("reopenAfterSilence", TimeSpan.FromSeconds(10), TimeSpan.FromHours(1), TimeSpan.FromSeconds(60)),
        };
        return new(id, Word, _ => new SerialBus(id, settings, TimeProvider.System, SerialDevice.Open))
        {
            Remark = () => new LastingName().Advice(settings.Port) is { } advice ? $"Bus '{id}': {advice}" : null,
        };
    }
}
