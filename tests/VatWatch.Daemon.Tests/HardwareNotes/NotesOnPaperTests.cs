using System.Text.RegularExpressions;
using System.Xml.Linq;
using VatWatch.Testing;

namespace VatWatch.Daemon.Tests.HardwareNotes;

/// <summary>What a reader of hardware-notes relies on: drawings that open and are shown, links that lead somewhere, and fault sentences that VatWatch really says.</summary>
[Trait("Starts", "processes")]
public sealed partial class NotesOnPaperTests
{
    private static readonly XNamespace Svg = "http://www.w3.org/2000/svg";

    public static TheoryData<string> Families => HardwareNotesTests.Families;

    public static TheoryData<string> Pages =>
        [.. Directory.GetFiles(Notes, "*.md", SearchOption.AllDirectories).Append(SourceTree.At("README.md")).Select(page => Path.GetRelativePath(SourceTree.Root, page))];

    public static TheoryData<string> Drawings => [.. Directory.GetFiles(Notes, "*.svg", SearchOption.AllDirectories).Select(file => Path.GetRelativePath(SourceTree.Root, file))];

    private static string Notes { get; } = SourceTree.At("hardware-notes");

    [Theory]
    [MemberData(nameof(Families))]
    public void Every_family_shows_a_drawing_of_its_wiring_and_says_how_it_is_kept(string family)
    {
        var page = File.ReadAllText(Path.Combine(Notes, family, "README.md"));
        Assert.Matches(@"\n## Wiring\n\n!\[[^\]]{20,}\]\(wiring\.svg\)\n", page);
        Assert.Contains("\n## Checking, keeping, lasting\n", page, StringComparison.Ordinal);
    }

    [Theory]
    [MemberData(nameof(Drawings))]
    public void Every_drawing_has_a_title_and_a_description_and_a_page_that_shows_it(string drawing)
    {
        var root = XDocument.Load(SourceTree.At(drawing)).Root!;
        Assert.Equal(Svg + "svg", root.Name);
        Assert.False(string.IsNullOrWhiteSpace(root.Element(Svg + "title")?.Value));
        Assert.False(string.IsNullOrWhiteSpace(root.Element(Svg + "desc")?.Value));
        Assert.Contains("prefers-color-scheme: dark", root.Element(Svg + "style")?.Value, StringComparison.Ordinal);

        var beside = Directory.GetFiles(Path.GetDirectoryName(SourceTree.At(drawing))!, "*.md");
        Assert.Contains(beside, page => File.ReadAllText(page).Contains($"]({Path.GetFileName(drawing)})", StringComparison.Ordinal));
    }

    [Fact]
    public async Task The_drawings_are_those_that_the_script_draws()
    {
        var check = await ToolRun.RequireAsync("/usr/bin/python3", [Path.Combine(Notes, "draw.py"), "--check"]);
        Assert.Contains("all drawings are as draw.py draws them", check.Output, StringComparison.Ordinal);
    }

    [Theory]
    [MemberData(nameof(Pages))]
    public void Every_link_leads_to_a_file_and_its_heading(string page)
    {
        var folder = Path.GetDirectoryName(SourceTree.At(page))!;
        Assert.All(Links().Matches(File.ReadAllText(SourceTree.At(page))), link =>
        {
            var (path, heading) = (link.Groups["path"].Value, link.Groups["heading"].Value);
            var target = path.Length == 0 ? SourceTree.At(page) : Path.GetFullPath(Path.Combine(folder, path));
            Assert.True(Path.Exists(target), $"{page} leads to {path}, which is not there");
            Assert.True(heading.Length == 0 || Headings(target).Contains(heading), $"{page} leads to #{heading}, which is no heading of {target}");
        });
    }

    [Theory]
    [MemberData(nameof(Families))]
    public void Every_sentence_of_a_fault_table_is_one_that_VatWatch_says(string family)
    {
        var rows = File.ReadLines(Path.Combine(Notes, family, "README.md")).SkipWhile(line => !line.StartsWith("## When `vatwatch read` says", StringComparison.Ordinal))
            .Where(line => line.StartsWith("| `", StringComparison.Ordinal)).ToList();
        Assert.True(rows.Count >= 5, $"{rows.Count} faults are explained");

        var said = Said();
        var pieces = rows.SelectMany(row => Quoted().Matches(row.Split(" | ")[0]).Select(quoted => quoted.Groups["words"].Value))
            .SelectMany(sentence => sentence.Split("...").Select(piece => piece.Trim(' ', '(', ')')).Where(piece => piece.Length > 2)).ToList();
        Assert.All(pieces, piece => Assert.True(IsSaid(piece, said), $"nothing in the source says '{piece}'"));
    }

    /// <summary>Whether the words stand in the source in one piece, or as the words before a hole of an interpolated string and a string that fills one.</summary>
    private static bool IsSaid(string words, string source) => source.Contains(words, StringComparison.Ordinal) || Enumerable.Range(1, words.Length - 1)
        .Any(cut => source.Contains(words[..cut] + "{", StringComparison.Ordinal) && source.Contains('"' + words[cut..], StringComparison.Ordinal));

    /// <summary>The source of everything by which a reading can be refused.</summary>
    private static string Said() => string.Join('\n', new[] { "Probes", "Calibration", "Measurements" }
        .SelectMany(folder => Directory.GetFiles(SourceTree.At("src", "VatWatch", folder), "*.cs", SearchOption.AllDirectories)).Select(File.ReadAllText));

    private static HashSet<string> Headings(string page) =>
        [.. File.ReadLines(page).Where(line => line.StartsWith('#')).Select(line => NotInAnchor().Replace(line.TrimStart('#', ' ').ToLowerInvariant(), "").Replace(' ', '-'))];

    [GeneratedRegex(@"\]\((?!https?:)(?<path>[^)#]*)(#(?<heading>[^)]+))?\)", RegexOptions.CultureInvariant | RegexOptions.ExplicitCapture)]
    private static partial Regex Links();

    [GeneratedRegex("`(?<words>[^`]+)`", RegexOptions.CultureInvariant | RegexOptions.ExplicitCapture)]
    private static partial Regex Quoted();

    [GeneratedRegex(@"[^\p{L}\p{Nd} _-]", RegexOptions.CultureInvariant)]
    private static partial Regex NotInAnchor();
}
