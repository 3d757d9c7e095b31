using VatWatch.Vats.Configuration;

namespace VatWatch.Daemon.Web.Settings;

/// <summary>What is in force, for the page that shows it.</summary>
/// <param name="File">Full path of the configuration.</param>
/// <param name="DataFolder">Full path of the store's folder.</param>
/// <param name="All">Every setting, in the order in which they were read.</param>
public sealed record SettingsFacts(string File, string DataFolder, IReadOnlyList<ConfigSetting> All)
{
    /// <summary>Where no file was read.</summary>
    public static SettingsFacts None { get; } = new("", "", []);
}
