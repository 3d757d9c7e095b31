using System.Text.RegularExpressions;

namespace VatWatch.Daemon.Web.Settings;

/// <summary>Keys and values of the configuration in words for people.</summary>
internal static partial class SettingWords
{
    private static readonly Dictionary<string, string> Keys = new(StringComparer.Ordinal)
    {
        ["site"] = "name of this place",
        ["display"] = "units",
        ["timeZone"] = "time zone",
        ["data"] = "folder of the record",
        ["store.keepReadings"] = "readings are kept for",
        ["store.sizeLimitMegabytes"] = "most room for the record, MB",
        ["store.commitInterval"] = "readings are on the disk within",
        ["store.writeTimeout"] = "patience with the disk",
        ["store.bufferedMeasurements"] = "readings held while the disk is away",
        ["volume"] = "liquor when full",
        ["fibre"] = "fibre",
        ["reducer"] = "reducing agent",
        ["temperature.low"] = "warm enough from",
        ["temperature.high"] = "warm enough up to",
        ["temperature.limit"] = "never above",
        ["ph.low"] = "pH from",
        ["ph.high"] = "pH up to",
        ["orp.weak"] = "weak when ORP is above",
        ["orp.oxidised"] = "oxidised when ORP is above",
        ["orp.reference"] = "ORP is told against",
        ["orp.rising"] = "losing reduction when ORP rises by",
        ["altitude"] = "height above the sea",
        ["driver"] = "read as",
        ["every"] = "every",
        ["baud"] = "baud",
        ["web.listen"] = "address of the pages",
        ["web.hostName"] = "name in addresses that are sent",
        ["web.passwordFile"] = "operators' password is in",
        ["web.viewerPasswordFile"] = "viewers' password is in",
        ["web.tokenFile"] = "token for programs is in",
        ["web.certificateFile"] = "certificate is in",
        ["web.keyFile"] = "its key is in",
        ["web.proxy"] = "proxy in front",
        ["mqtt.broker"] = "broker",
        ["mqtt.listen"] = "address of the built-in broker",
        ["mqtt.user"] = "user at the broker",
        ["mqtt.passwordFile"] = "password for the broker is in",
        ["mqtt.caFile"] = "authority of the broker's certificate is in",
        ["mail.server"] = "mail server",
        ["mail.from"] = "mail comes from",
        ["minimumPriority"] = "from priority",
        ["mostRepeats"] = "told again at most",
        ["repeat"] = "told again every",
        ["after"] = "when nobody has acknowledged for",
        ["hours.from"] = "from",
        ["hours.to"] = "to",
        ["hours.criticalAlways"] = "critical at any hour",
        ["onDelay"] = "after",
        ["offDelay"] = "over after",
        ["reAlarm"] = "alarms anew after",
        ["shelveAtMost"] = "set aside for at most",
        ["latch"] = "held until reset",
        ["enabled"] = "in use",
    };

    private static readonly Dictionary<string, string> Values = new(StringComparer.Ordinal)
    {
        ["display:us"] = "°F, gallons, pounds and ounces",
        ["display:si"] = "°C, litres, kilograms and grams",
        ["fibre:protein"] = "wool and silk (protein)",
        ["fibre:cellulose"] = "cotton and linen (cellulose)",
        ["reducer:thiourea-dioxide"] = "thiourea dioxide",
        ["mqtt.broker:builtin"] = "built in",
        ["way:mqtt"] = "by topic",
        ["way:mail"] = "by mail",
        ["way:webhook"] = "by webhook",
        ["measures:ph"] = "pH",
        ["measures:orp"] = "ORP",
        ["measures:heater-command"] = "the heater's switch",
    };

    /// <summary>What a key is called: its own words, else the key's with blanks between them.</summary>
    /// <param name="key">Path from the object that it is shown under, such as "temperature.low".</param>
    public static string Key(string key) => Keys.GetValueOrDefault(key) ?? string.Join(": ", key.Split('.').Select(part => Spaced(part)));

    /// <summary>A value in words.</summary>
    /// <param name="value">As written.</param>
    public static string Value(string key, string value) => Values.GetValueOrDefault($"{key}:{value}") ?? value switch
    {
        "true" => "yes",
        "false" => "no",
        ['-', >= '0' and <= '9', ..] => $"−{value[1..]}",
        _ => value,
    };

    private static string Spaced(string key) => Hump().Replace(key, found => $" {found.Value.ToLowerInvariant()}").Replace('-', ' ');

    [GeneratedRegex("(?<=[a-z0-9])[A-Z]")]
    private static partial Regex Hump();
}
