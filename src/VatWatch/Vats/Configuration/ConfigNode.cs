using System.Globalization;
using System.Text.Json;
using System.Text.RegularExpressions;

namespace VatWatch.Vats.Configuration;

/// <summary>
/// A strict view of one JSON object of the configuration. Each key is asked for by name and kind; what is missing, of the wrong
/// kind or out of range is filed as a fault and a harmless stand-in is returned, so that one pass finds everything.
/// <see cref="Done"/> files every key that nobody asked for. Not thread safe.
/// </summary>
public sealed partial class ConfigNode
{
    private const int LongestTitle = 80;
    private const int LongestShown = 80;
    private readonly Dictionary<string, JsonElement> _members = new(StringComparer.Ordinal);
    private readonly HashSet<string> _asked = new(StringComparer.Ordinal);

    /// <summary>Opens <paramref name="element"/>; anything but an object is a fault and reads as empty.</summary>
    public ConfigNode(JsonElement element, string path, ConfigFaults faults)
    {
        Path = path;
        Faults = faults;
        if (element.ValueKind != JsonValueKind.Object)
        {
            faults.Add(path, Show(element), "an object { ... }");
            IsBroken = true;
            return;
        }

        foreach (var member in element.EnumerateObject())
        {
            if (!_members.TryAdd(member.Name, member.Value))
            {
                faults.Add(PathOf(member.Name), "written twice", "the key once");
            }
        }
    }

    private ConfigNode(string path, ConfigFaults faults)
    {
        Path = path;
        Faults = faults;
        IsBroken = true;
    }

    /// <summary>Where this object stands in the file.</summary>
    public string Path { get; }

    /// <summary>Where faults go.</summary>
    public ConfigFaults Faults { get; }

    /// <summary>True when there was no object to read; missing keys are then not reported again.</summary>
    public bool IsBroken { get; }

    /// <summary>The keys present, in the order of the file.</summary>
    public IReadOnlyList<string> Keys => [.. _members.Keys];

    /// <summary>Key path of <paramref name="key"/> within this object.</summary>
    public string PathOf(string key) => Path.Length == 0 ? OnOneLine(key) : $"{Path}.{OnOneLine(key)}";

    /// <summary>Whether the key is present (and counts it as asked for).</summary>
    public bool Has(string key)
    {
        Ask(key);
        return _members.ContainsKey(key);
    }

    /// <summary>A non-empty text without NUL, or the empty string after filing a fault.</summary>
    public string Text(string key, string wanted)
    {
        if (!TryFind(key, wanted, out var value))
        {
            return "";
        }

        // No name of a file, a device or a server holds a NUL, and the system's calls end a text there.
        if (value.ValueKind == JsonValueKind.String && value.GetString() is { Length: > 0 } text && !text.Contains('\0'))
        {
            return text;
        }

        Faults.Add(PathOf(key), Show(value), wanted);
        return "";
    }

    /// <summary>A text, or <paramref name="fallback"/> when the key is absent.</summary>
    public string? OptionalText(string key, string wanted, string? fallback = null) => Has(key) ? Text(key, wanted) : Default(key, fallback, fallback ?? ConfigLedger.NotSet);

    /// <summary>A name for people, as it stands on pages and phones: 1 to 80 characters on one line; <paramref name="fallback"/> when the key is absent.</summary>
    public string Title(string key, string fallback)
    {
        const string wanted = "a name of 1 to 80 characters on one line";
        var text = OptionalText(key, wanted, fallback)!;
        if (text.Length <= LongestTitle && !text.Any(IsUnseen))
        {
            return text;
        }

        Faults.Add(PathOf(key), Quote(text), wanted);
        return fallback;
    }

    /// <summary>What a fault asks for where a name is wanted.</summary>
    public const string NameWanted = "a name of lower-case letters, digits and hyphens, at most 40";

    /// <summary>Whether <paramref name="text"/> may name a site, vat, probe or bus.</summary>
    public static bool IsName(string text) => NamePattern().IsMatch(text);

    /// <summary>Whether <paramref name="text"/> is a name, or two of them with a full stop between, as an alarm about one thing among several has.</summary>
    public static bool IsNameOfOne(string text) => text.Split('.', 3) is { Length: < 3 } parts && parts.All(IsName);

    /// <summary>A name of lower-case letters, digits and hyphens, at most 40, that starts with a letter or digit.</summary>
    public string Name(string key) => Matching(key, NamePattern(), NameWanted);

    /// <summary>A text that matches <paramref name="pattern"/>.</summary>
    public string Matching(string key, Regex pattern, string wanted)
    {
        var text = Text(key, wanted);
        if (text.Length == 0 || pattern.IsMatch(text))
        {
            return text;
        }

        Faults.Add(PathOf(key), Quote(text), wanted);
        return "";
    }

    /// <summary>One of the words of <paramref name="choices"/>.</summary>
    public T Choice<T>(string key, IReadOnlyDictionary<string, T> choices, T fallback, bool required = false)
    {
        if (!required && !Has(key))
        {
            return Default(key, fallback, WordOf(fallback, choices));
        }

        var wanted = $"one of {string.Join(", ", choices.Keys.Select(Quote))}";
        var text = Text(key, wanted);
        if (text.Length == 0)
        {
            return fallback;
        }

        if (choices.TryGetValue(text, out var choice))
        {
            return choice;
        }

        Faults.Add(PathOf(key), Quote(text), wanted);
        return fallback;
    }

    private static string WordOf<T>(T member, IReadOnlyDictionary<string, T> choices)
    {
        foreach (var choice in choices)
        {
            if (Equals(choice.Value, member))
            {
                return choice.Key;
            }
        }

        return ConfigLedger.NotSet;
    }

    /// <summary>True or false.</summary>
    public bool Flag(string key, bool fallback)
    {
        if (!TryFind(key, "true or false", out var value, isOptional: true))
        {
            return Default(key, fallback, fallback ? "true" : "false");
        }

        if (value.ValueKind is JsonValueKind.True or JsonValueKind.False)
        {
            return value.GetBoolean();
        }

        Faults.Add(PathOf(key), Show(value), "true or false");
        return fallback;
    }

    /// <summary>A bare number within a range; only for quantities that have no unit (pH, counts, factors).</summary>
    public double Number(string key, double low, double high, double? fallback = null)
    {
        var wanted = $"a number from {low} to {high}";
        if (fallback is { } absent && !Has(key))
        {
            return Default(key, absent, absent.ToString());
        }

        if (!TryFind(key, wanted, out var value))
        {
            return low;
        }

        if (value.ValueKind == JsonValueKind.Number && value.TryGetDouble(out var number) && number >= low && number <= high)
        {
            return number;
        }

        Faults.Add(PathOf(key), Show(value), wanted);
        return low;
    }

    /// <summary>A whole number within a range.</summary>
    public int Whole(string key, int low, int high, int? fallback = null)
    {
        var wanted = $"a whole number from {low} to {high}";
        if (fallback is { } absent && !Has(key))
        {
            return Default(key, absent, absent.ToString());
        }

        if (!TryFind(key, wanted, out var value))
        {
            return low;
        }

        if (value.ValueKind == JsonValueKind.Number && value.TryGetInt32(out var number) && number >= low && number <= high)
        {
            return number;
        }

        Faults.Add(PathOf(key), Show(value), wanted);
        return low;
    }

    /// <summary>A quantity written with its unit, in <paramref name="kind"/>'s canonical unit.</summary>
    public double Quantity(string key, QuantityKind kind, double low, double high, double? fallback = null)
    {
        var wanted = kind.Wanted(low, high);
        if (fallback is { } absent && !Has(key))
        {
            return Default(key, absent, kind.Show(absent));
        }

        if (!TryFind(key, wanted, out var value))
        {
            return low;
        }

        if (value.ValueKind == JsonValueKind.String && kind.TryParse(value.GetString()!, out var number) && number >= low && number <= high)
        {
            return number;
        }

        Faults.Add(PathOf(key), Show(value), wanted);
        return low;
    }

    /// <summary>A length of time written with its unit.</summary>
    public TimeSpan Duration(string key, TimeSpan low, TimeSpan high, TimeSpan? fallback = null) =>
        TimeSpan.FromSeconds(Quantity(key, QuantityKind.Duration, low.TotalSeconds, high.TotalSeconds, fallback?.TotalSeconds));

    /// <summary>A nested object that must be there.</summary>
    public ConfigNode Section(string key) =>
        TryFind(key, "an object { ... }", out var value) ? new(value, PathOf(key), Faults) : new(PathOf(key), Faults);

    /// <summary>A nested object, or null when the key is absent.</summary>
    public ConfigNode? OptionalSection(string key) => Has(key) ? Section(key) : null;

    /// <summary>The objects of a list; a key that is absent reads as an empty list.</summary>
    public IReadOnlyList<ConfigNode> Sections(string key, string wanted, bool required = false)
    {
        if (!required && !Has(key))
        {
            return [];
        }

        if (!TryFind(key, wanted, out var value))
        {
            return [];
        }

        if (value.ValueKind == JsonValueKind.Array && (!required || value.GetArrayLength() > 0))
        {
            var sections = new List<ConfigNode>();
            foreach (var item in value.EnumerateArray())
            {
                sections.Add(new(item, $"{PathOf(key)}[{sections.Count}]", Faults));
            }

            return sections;
        }

        Faults.Add(PathOf(key), Show(value), wanted);
        return [];
    }

    /// <summary>A time zone by its name; the site's when the key is absent.</summary>
    public TimeZoneInfo Zone(string key)
    {
        const string wanted = "a time zone of this machine's list, such as \"America/Chicago\"";
        if (!Has(key))
        {
            return Default(key, Faults.Zone, Faults.Zone.Id);
        }

        var name = Text(key, wanted);
        if (name.Length == 0 || TimeZoneInfo.TryFindSystemTimeZoneById(name, out var zone))
        {
            return name.Length == 0 ? Faults.Zone : TimeZoneInfo.FindSystemTimeZoneById(name);
        }

        Faults.Add(PathOf(key), Quote(name), wanted);
        return Faults.Zone;
    }

    /// <summary>The path of a file that the configuration names: from the folder of the configuration, unless it is a full path.</summary>
    public string FilePath(string name) => System.IO.Path.Combine(Faults.Folder, name);

    /// <summary>The path of a file that may be named at <paramref name="key"/>; null when the key is absent.</summary>
    public string? OptionalFile(string key, string wanted) => OptionalText(key, wanted) is { Length: > 0 } name ? FilePath(name) : null;

    /// <summary>Refuses a key of earlier versions, with what to use instead.</summary>
    public void Removed(string key, string instead)
    {
        if (_members.Remove(key))
        {
            Faults.Add(PathOf(key), "a key of earlier versions", instead);
        }
    }

    /// <summary>Files every key that nobody asked for.</summary>
    public void Done()
    {
        foreach (var key in Keys.Where(key => !_asked.Contains(key)))
        {
            var known = _asked.Count == 0 ? "no key here" : $"one of {string.Join(", ", _asked.Order(StringComparer.Ordinal))}";
            Faults.Add(PathOf(key), "an unknown key", known);
        }
    }

    /// <summary>What stands at <paramref name="key"/>, for a fault's sentence.</summary>
    public string Shown(string key) => _members.TryGetValue(key, out var value) ? Show(value) : "missing";

    /// <summary>Text in double quotes on one line, shortened when very long, for a fault's sentence.</summary>
    public static string Quote(string text) => $"\"{OnOneLine(text)}\"";

    /// <summary>A fault is one sentence on one line of somebody's terminal, so what stands in the file is shortened and cannot steer it.</summary>
    internal static string OnOneLine(string text)
    {
        var shown = text.Length > LongestShown ? $"{text[..(LongestShown - 3)]}..." : text;
        return shown.Any(IsUnseen) ? string.Concat(shown.Select(letter => IsUnseen(letter) ? $"\\u{(int)letter:x4}" : letter.ToString())) : shown;
    }

    private static bool IsUnseen(char letter) =>
        char.IsControl(letter) || char.GetUnicodeCategory(letter) is UnicodeCategory.Format or UnicodeCategory.LineSeparator or UnicodeCategory.ParagraphSeparator;

    private void Ask(string key)
    {
        _asked.Add(key);
        Faults.Asked?.Add(PathOf(key));
    }

    private bool TryFind(string key, string wanted, out JsonElement value, bool isOptional = false)
    {
        Ask(key);
        if (_members.TryGetValue(key, out value))
        {
            if (value.ValueKind is not (JsonValueKind.Object or JsonValueKind.Array))
            {
                Faults.Ledger.Note(PathOf(key), value.ValueKind == JsonValueKind.String ? value.GetString()! : value.GetRawText(), isFromFile: true);
            }

            return true;
        }

        if (!IsBroken && !isOptional)
        {
            Faults.Add(PathOf(key), "missing", wanted);
        }

        return false;
    }

    private T Default<T>(string key, T value, string shown)
    {
        Faults.Ledger.Note(PathOf(key), shown, isFromFile: false);
        return value;
    }

    private static string Show(JsonElement value) => value.ValueKind switch
    {
        JsonValueKind.String => Quote(value.GetString()!),
        JsonValueKind.Object => "an object",
        JsonValueKind.Array => value.GetArrayLength() == 0 ? "an empty list" : "a list",
        JsonValueKind.Null => "null",
        _ => OnOneLine(value.GetRawText()),
    };

    [GeneratedRegex("^[a-z0-9][a-z0-9-]{0,39}\\z", RegexOptions.CultureInvariant)]
    private static partial Regex NamePattern();
}
