namespace VatWatch.Conventions.Tests;

/// <summary>No source file over 400 lines, no test file over 600, and no name that says nothing (DEVELOPERS.md, "Size" and "Names").</summary>
public sealed class SizeTests
{
    [Theory]
    [InlineData("src", 400)]
    [InlineData("tests", 600)]
    public void No_file_is_longer_than_the_limit(string folder, int limit)
    {
        var long_ = Repository.Sources(folder).Select(file => (file, lines: File.ReadLines(file).Count())).Where(pair => pair.lines > limit)
            .Select(pair => $"{Repository.Relative(pair.file)} has {pair.lines} lines");
        Assert.Empty(long_);
    }

    [Fact]
    public void No_file_is_named_for_nothing_in_particular()
    {
        string[] words = ["Manager", "Helper", "Helpers", "Util", "Utils", "Impl"];
        var wrong = Repository.Sources("src").Concat(Repository.Sources("tests"))
            .Where(file => words.Any(word => Path.GetFileNameWithoutExtension(file).EndsWith(word, StringComparison.Ordinal)))
            .Select(Repository.Relative);
        Assert.Empty(wrong);
    }

    [Fact]
    public void Package_versions_stand_in_one_place_and_do_not_float()
    {
        var projects = Directory.EnumerateFiles(Repository.Root, "*.csproj", SearchOption.AllDirectories).ToList();
        Assert.NotEmpty(projects);
        Assert.All(projects, project => Assert.DoesNotContain("Version=\"", File.ReadAllText(project).Replace("<Project Sdk", "", StringComparison.Ordinal), StringComparison.Ordinal));
        Assert.DoesNotContain("*", File.ReadAllText(Path.Combine(Repository.Root, "Directory.Packages.props")), StringComparison.Ordinal);
    }
}
