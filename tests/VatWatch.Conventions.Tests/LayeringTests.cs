using System.Text.RegularExpressions;

namespace VatWatch.Conventions.Tests;

/// <summary>A folder uses only itself and what stands to its left (DEVELOPERS.md, "The data path is the folder map"); of the data path also Vats and Time.</summary>
public sealed partial class LayeringTests
{
    private static readonly string[] DataPath =
    [
        "Vats", "Probes", "Readings", "Calibration", "Measurements", "Store", "Conditions", "Plans", "Alarms", "Sessions", "Ledger", "Notifications", "Pipeline",
    ];

    /// <summary>What the others need first; the verbs see everything.</summary>
    private static readonly string[] Daemon = ["Service", "Bench", "Dosing", "Plans", "Web", "Wiring", "Verbs"];

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
        var folders = Repository.Sources("src/VatWatch").Select(file => FolderOf(file)).Distinct().Except([.. DataPath, "Time"]);
        Assert.Empty(folders);
    }

    [Fact]
    public void Every_folder_of_the_daemon_looks_only_to_its_left()
    {
        var sources = Repository.Sources("src/VatWatch.Daemon").Where(file => FolderOf(file, "src/VatWatch.Daemon") != "Program.cs").ToList();
        Assert.Empty(sources.Select(file => FolderOf(file, "src/VatWatch.Daemon")).Distinct().Except(Daemon));
        var wrong = sources.SelectMany(file => Usings(file)
            .Where(used => used.StartsWith("VatWatch.Daemon.", StringComparison.Ordinal))
            .Select(used => used.Split('.')[2])
            .Where(used => Array.IndexOf(Daemon, used) > Array.IndexOf(Daemon, FolderOf(file, "src/VatWatch.Daemon")))
            .Select(used => $"{Repository.Relative(file)} uses {used}"));
        Assert.Empty(wrong);
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

    private static string FolderOf(string file, string project = "src/VatWatch") => Path.GetRelativePath(Path.Combine(Repository.Root, project), file).Split('/')[0];

    private static IEnumerable<string> UsedFolders(string file) => Usings(file)
        .Where(used => used.StartsWith("VatWatch.", StringComparison.Ordinal) && !used.StartsWith("VatWatch.Science", StringComparison.Ordinal))
        .Select(used => used.Split('.')[1])
        .Distinct();

    private static IEnumerable<string> Usings(string file) =>
        UsingLine().Matches(File.ReadAllText(file)).Select(match => match.Groups["name"].Value);

    [GeneratedRegex(@"^\s*(global )?using (static )?(\w+ = )?(?<name>[\w.]+);", RegexOptions.Multiline)]
    private static partial Regex UsingLine();
}
