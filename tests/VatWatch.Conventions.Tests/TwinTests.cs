namespace VatWatch.Conventions.Tests;

/// <summary>A source file of more than 60 lines is tested by a file of its own name, or stands in <c>without-twin.txt</c> with the reason.</summary>
public sealed class TwinTests
{
    private const int Long = 60;

    private static readonly Dictionary<string, string> Excused = File.ReadLines(Path.Combine(Repository.Root, "tests/VatWatch.Conventions.Tests/without-twin.txt"))
        .Where(line => line.Length > 0 && !line.StartsWith('#'))
        .Select(line => line.Split(": ", 2))
        .ToDictionary(parts => parts[0], parts => parts[1], StringComparer.Ordinal);

    private static readonly HashSet<string> Tested =
        [.. Repository.Sources("tests").Select(file => Path.GetFileNameWithoutExtension(file)).Where(name => name.EndsWith("Tests", StringComparison.Ordinal)).Select(name => name[..^"Tests".Length])];

    private static IEnumerable<string> LongWithoutTwin => Repository.Sources("src")
        .Where(file => File.ReadLines(file).Count() > Long && !Tested.Contains(Path.GetFileNameWithoutExtension(file)))
        .Select(Repository.Relative);

    [Fact]
    public void A_long_file_has_a_test_of_its_name_or_a_reason() => Assert.Empty(LongWithoutTwin.Except(Excused.Keys));

    [Fact]
    public void Every_excuse_is_still_needed() => Assert.Empty(Excused.Keys.Except(LongWithoutTwin));
}
