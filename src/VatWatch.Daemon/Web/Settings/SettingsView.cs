using System.Text.RegularExpressions;
using VatWatch.Vats.Configuration;

namespace VatWatch.Daemon.Web.Settings;

/// <summary>Settings in groups, as a page shows them.</summary>
/// <param name="Groups">Heading, and the settings below it with their path from there.</param>
/// <param name="Contacts">Names in addresses and for people of whoever is told of alarms.</param>
public sealed partial record SettingsView(
    IReadOnlyList<(string Heading, IReadOnlyList<ConfigSetting> Settings)> Groups, IReadOnlyList<(string Id, string Name)> Contacts)
{
    private const string Root = "The site";

    /// <summary>Groups settings by the object of the file that they stand in, vats and contacts each for themselves.</summary>
    public static SettingsView Of(SettingsFacts facts)
    {
        var names = facts.All.Where(one => one.Path.EndsWith("].name", StringComparison.Ordinal) || one.Path.EndsWith("].id", StringComparison.Ordinal)).ToDictionary(one => one.Path, one => one.Value);
        var groups = facts.All
            .GroupBy(one => GroupPattern().Match(one.Path).Value)
            .Select(group => (Heading(group.Key, names), Settings: (IReadOnlyList<ConfigSetting>)[.. group.Select(one => one with { Path = one.Path[group.Key.Length..].TrimStart('.') })]))
            .ToList();
        var contacts = names.Keys
            .Select(path => ContactPattern().Match(path))
            .Where(match => match.Success)
            .Select(match => (names[match.Value], NameOf(match.Groups[1].Value, names)))
            .ToList();
        return new(groups, contacts);
    }

    private static string Heading(string path, Dictionary<string, string> names) => path switch
    {
        "" => Root,
        "mqtt" => "Topics",
        "web" => "Pages",
        ['b', 'u', 's', 'e', 's', '.', .. var bus] => $"Bus: {bus}",
        [.., ']'] => $"{char.ToUpperInvariant(path[0])}{path[1..path.IndexOf('[', StringComparison.Ordinal)].TrimEnd('s')}: {NameOf(path, names)}",
        _ => char.ToUpperInvariant(path[0]) + path[1..],
    };

    private static string NameOf(string path, Dictionary<string, string> names) =>
        names.GetValueOrDefault(path + ".name") ?? names.GetValueOrDefault(path + ".id") ?? path;

    /// <summary>The object that a setting is shown under: "vats[0]", "buses.bench", "web"; nothing for one of the site.</summary>
    [GeneratedRegex(@"^(vats\[\d+\]|contacts\[\d+\]|buses\.[^.]+|[^.\[]+(?=\.))")]
    private static partial Regex GroupPattern();

    [GeneratedRegex(@"^(contacts\[\d+\])\.id$")]
    private static partial Regex ContactPattern();
}
