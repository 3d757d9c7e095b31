using System.Text.RegularExpressions;

namespace VatWatch.Conventions.Tests;

/// <summary>A folder of the data path uses only itself, Vats, Time and what stands to its left (DEVELOPERS.md, "The data path is the folder map").</summary>
public sealed partial class LayeringTests
{
    private static readonly string[] DataPath =
    [
        "Vats", "Probes", "Readings", "Calibration", "Measurements", "Store", "Conditions", "Alarms", "Sessions", "Notifications", "Pipeline",
    ];

    [Fact]
    public void Every_folder_of_the_data_path_looks_only_to_its_left()
    {
        var wrong = Repository.Sources("src/VatWatch")
            .SelectMany(file => UsedFolders(file).Where(used => !MayUse(FolderOf(file), used)).Select(used => $"{Repository.Relative(file)} uses {used}"))
            .ToList();
        Assert.Empty(wrong);
    }

    [Fact]
    public void Only_known_folders_stand_in_the_data_path()
    {
        var folders = Repository.Sources("src/VatWatch").Select(FolderOf).Distinct().Except([.. DataPath, "Time"]);
        Assert.Empty(folders);
    }

    [Theory]
    [InlineData("src/VatWatch.Science", "VatWatch.Science")]
    [InlineData("src/VatWatch", "VatWatch.Charts|VatWatch.Daemon|VatWatch.Influx|Microsoft.AspNetCore|ScottPlot|SkiaSharp|InfluxDB")]
    [InlineData("src/VatWatch.Charts", "VatWatch.Daemon|Microsoft.AspNetCore|VatWatch.Pipeline")]
    public void A_project_does_not_reach_above_itself(string folder, string words)
    {
        var isScience = folder.EndsWith("Science", StringComparison.Ordinal);
        var wrong = Repository.Sources(folder).SelectMany(file => Usings(file)
            .Where(used => isScience
                ? !used.StartsWith("VatWatch.Science", StringComparison.Ordinal) && !used.StartsWith("System", StringComparison.Ordinal)
                : words.Split('|').Any(word => used == word || used.StartsWith(word + ".", StringComparison.Ordinal)))
            .Select(used => $"{Repository.Relative(file)} uses {used}"));
        Assert.Empty(wrong);
    }

    [Fact]
    public void The_rule_itself_tells_left_from_right()
    {
        Assert.True(MayUse("Alarms", "Store"));
        Assert.True(MayUse("Probes", "Time"));
        Assert.False(MayUse("Store", "Alarms"));
        Assert.False(MayUse("Vats", "Probes"));
        Assert.False(MayUse("Time", "Store"));
    }

    private static bool MayUse(string folder, string used) =>
        folder == used
        || used is "Vats" or "Time"
        || (Array.IndexOf(DataPath, used) is var right and >= 0 && right < Array.IndexOf(DataPath, folder));

    private static string FolderOf(string file) => Path.GetRelativePath(Path.Combine(Repository.Root, "src/VatWatch"), file).Split('/')[0];

    private static IEnumerable<string> UsedFolders(string file) => Usings(file)
        .Where(used => used.StartsWith("VatWatch.", StringComparison.Ordinal) && !used.StartsWith("VatWatch.Science", StringComparison.Ordinal))
        .Select(used => used.Split('.')[1])
        .Distinct();

    private static IEnumerable<string> Usings(string file) =>
        UsingLine().Matches(File.ReadAllText(file)).Select(match => match.Groups["name"].Value);

    [GeneratedRegex(@"^\s*(global )?using (static )?(\w+ = )?(?<name>[\w.]+);", RegexOptions.Multiline)]
    private static partial Regex UsingLine();
}
