namespace VatWatch.Vats.Configuration;

/// <summary>
/// Notes every setting that is read, with where it came from, so that people can be shown what is in force. Secrets are in files of their own and never
/// here; of an address only the server is kept, since its path may hold a key. Not thread safe.
/// </summary>
public sealed class ConfigLedger
{
    /// <summary>What stands for a setting that is not there and has no default.</summary>
    public const string NotSet = "not set";

    private readonly Dictionary<string, ConfigSetting> _settings = new(StringComparer.Ordinal);

    /// <summary>Every setting, in the order in which they were first asked for.</summary>
    public IReadOnlyList<ConfigSetting> All => [.. _settings.Values];

    /// <summary>Notes one; what the file says outweighs a default noted before.</summary>
    public void Note(string path, string value, bool isFromFile)
    {
        if (isFromFile || !_settings.ContainsKey(path))
        {
            _settings[path] = new(path, WithoutKey(value), isFromFile);
        }
    }

    private static string WithoutKey(string value) =>
        value.Contains("://", StringComparison.Ordinal) && Uri.TryCreate(value, UriKind.Absolute, out var address) && address.Host.Length > 0
            ? $"{address.Scheme}://{address.Authority.Split('@')[^1]}{(address.PathAndQuery.Length > 1 ? "/…" : "")}"
            : value;
}

/// <summary>One setting as it was read.</summary>
/// <param name="Path">Key path, for example <c>vats[0].temperature.low</c>.</param>
/// <param name="Value">As written in the file, or the default in words; an address shows no more than its server.</param>
/// <param name="IsFromFile">Whether the file says it; otherwise it is the default.</param>
public sealed record ConfigSetting(string Path, string Value, bool IsFromFile);
