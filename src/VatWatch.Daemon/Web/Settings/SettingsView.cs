using System.Text.RegularExpressions;
using VatWatch.Vats.Configuration;

namespace VatWatch.Daemon.Web.Settings;

/// <summary>Settings in words, grouped by what they do.</summary>
/// <param name="Groups">In the order of the page; none is empty.</param>
/// <param name="Contacts">Names in addresses and for people of whoever is told of alarms.</param>
public sealed partial record SettingsView(IReadOnlyList<SettingsGroup> Groups, IReadOnlyList<(string Id, string Name)> Contacts)
{
    /// <summary>Groups settings; what is a list in the file, such as probes, is a row for each of its objects.</summary>
    public static SettingsView Of(SettingsFacts facts)
    {
        var names = facts.All.Where(one => one.Path.EndsWith("].name", StringComparison.Ordinal) || one.Path.EndsWith("].id", StringComparison.Ordinal)).ToDictionary(one => one.Path, one => one.Value);
        var groups = facts.All
            .Select(setting => (setting, Place: Place.Of(setting.Path, names)))
            .GroupBy(pair => (pair.Place.Order, pair.Place.Group))
            .OrderBy(group => group.Key.Order)
            .Select(group => Group(group.Key.Group, [.. group]))
            .Where(group => group.Rows.Count + group.Usual.Count > 0)
            .ToList();
        var contacts = names.Keys
            .Select(path => ContactPattern().Match(path))
            .Where(match => match.Success)
            .Select(match => (names[match.Value], NameOf(match.Groups[1].Value, names)))
            .ToList();
        return new(groups, contacts);
    }

    private static SettingsGroup Group(string heading, IReadOnlyList<(ConfigSetting Setting, Place Place)> settings)
    {
        var single = settings.Where(pair => pair.Place.Row is null && pair.Place.Key is not ("id" or "name"))
            .Select(pair => (pair.Setting.IsFromFile, Label: SettingWords.Key(pair.Place.Key).Capitalized(), Words: SettingWords.Value(pair.Place.Key, pair.Setting.Value)))
            .ToList();
        var rows = settings.Where(pair => pair.Place.Row is not null).GroupBy(pair => pair.Place.Row!).Select(row => (row.Key, Sentence([.. row]))).Where(row => row.Item2.Length > 0);
        return new(
            heading,
            [.. single.Where(one => one.IsFromFile).Select(one => (one.Label, one.Words)), .. rows],
            [.. single.Where(one => !one.IsFromFile).Select(one => (one.Label, one.Words))]);
    }

    // What an object of a list is comes first; what was left out of it is as usual, and would only be in the way.
    private static string Sentence(IReadOnlyList<(ConfigSetting Setting, Place Place)> row) => string.Join(", ", row
        .Where(pair => pair.Setting.IsFromFile && pair.Place.Key is not ("id" or "name"))
        .Select(pair => pair.Place.Key is "measures" or "kind" or "way" or "server" or "url"
            ? SettingWords.Value(pair.Place.Key, pair.Setting.Value)
            : $"{SettingWords.Key(pair.Place.Key)} {SettingWords.Value(pair.Place.Key, pair.Setting.Value)}"));

    private static string NameOf(string path, Dictionary<string, string> names) =>
        names.GetValueOrDefault(path + ".name") ?? names.GetValueOrDefault(path + ".id") ?? path;

    [GeneratedRegex(@"^(contacts\[\d+\])\.id$")]
    private static partial Regex ContactPattern();

    /// <summary>Where a setting is shown.</summary>
    /// <param name="Order">Place of its group on the page.</param>
    /// <param name="Row">The object of a list that it belongs to; null for a row of its own.</param>
    private sealed partial record Place(int Order, string Group, string? Row, string Key)
    {
        private static readonly (Regex Path, Func<Match, Dictionary<string, string>, Place> Make)[] Places =
        [
            (Vats(), (match, names) => OfVat(match, names)),
            (Buses(), (match, _) => new(2000, "Connections", match.Groups["name"].Value, match.Groups["key"].Value)),
            (ContactsOf(), (match, names) => new(2010, "Who is told", NameOf(match.Groups["list"].Value, names), match.Groups["key"].Value)),
            (WatchesOf(), (match, _) => new(2020, "Other watches", $"watch {int.Parse(match.Groups["index"].ValueSpan) + 1}", match.Groups["key"].Value)),
            (AlarmsOf(), (match, _) => new(2060, "Alarms about VatWatch itself", match.Groups["name"].Value, match.Groups["key"].Value)),
        ];

        public static Place Of(string path, Dictionary<string, string> names)
        {
            foreach (var (pattern, make) in Places)
            {
                if (pattern.Match(path) is { Success: true } match)
                {
                    return make(match, names);
                }
            }

            return path.Split('.')[0] switch
            {
                "mail" => new(2010, "Who is told", null, path),
                "web" => new(2030, "Pages", null, path),
                "mqtt" => new(2040, "Topics", null, path),
                "influx" => new(2050, "Copy on a database server", null, path["influx.".Length..]),
                _ => new(0, "This place and its record", null, path),
            };
        }

        private static Place OfVat(Match match, Dictionary<string, string> names)
        {
            var (order, name, rest) = (10 + 10 * int.Parse(match.Groups["index"].ValueSpan), NameOf(match.Groups["vat"].Value, names), match.Groups["rest"].Value);
            return Probes().Match(rest) is { Success: true } probe
                ? new(order + 1, $"{name}: probes", names.GetValueOrDefault($"{match.Groups["vat"].Value}.{probe.Groups["list"].Value}.id") ?? probe.Groups["list"].Value, probe.Groups["key"].Value)
                : AlarmsOf().Match(rest) is { Success: true } alarm ? new(order + 2, $"{name}: alarms that are not as usual", alarm.Groups["name"].Value, alarm.Groups["key"].Value)
                : new(order, name, null, rest);
        }

        [GeneratedRegex(@"^(?<vat>vats\[(?<index>\d+)\])\.(?<rest>.+)$")]
        private static partial Regex Vats();

        [GeneratedRegex(@"^(?<list>probes\[\d+\])\.(?<key>.+)$")]
        private static partial Regex Probes();

        [GeneratedRegex(@"^alarms\.(?<name>[^.]+)\.(?<key>.+)$")]
        private static partial Regex AlarmsOf();

        [GeneratedRegex(@"^buses\.(?<name>[^.]+)\.(?<key>.+)$")]
        private static partial Regex Buses();

        [GeneratedRegex(@"^(?<list>contacts\[\d+\])\.(?<key>.+)$")]
        private static partial Regex ContactsOf();

        [GeneratedRegex(@"^watches\[(?<index>\d+)\]\.(?<key>.+)$")]
        private static partial Regex WatchesOf();
    }
}

/// <summary>Settings that do one thing.</summary>
/// <param name="Rows">Name and words of what the file says.</param>
/// <param name="Usual">What the file leaves out, with what holds instead.</param>
public sealed record SettingsGroup(string Heading, IReadOnlyList<(string Label, string Words)> Rows, IReadOnlyList<(string Label, string Words)> Usual);

/// <summary>What is in force, for the page that shows it.</summary>
/// <param name="File">Full path of the configuration.</param>
/// <param name="DataFolder">Full path of the store's folder.</param>
/// <param name="All">Every setting, in the order in which they were read.</param>
public sealed record SettingsFacts(string File, string DataFolder, IReadOnlyList<ConfigSetting> All)
{
    /// <summary>Where no file was read.</summary>
    public static SettingsFacts None { get; } = new("", "", []);
}
