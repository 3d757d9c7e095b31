using VatWatch.Packing;

namespace VatWatch.SystemTests.Package;

/// <summary>The notices of what is shipped, from packages as a restore leaves them.</summary>
public sealed class NoticesTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("notices-").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    [Fact]
    public void Each_package_has_its_makers_and_a_text_that_several_bring_stands_there_once()
    {
        var notices = Notices.Write(
        [
            Package("Madder", "<license type=\"expression\">MIT</license><copyright>(c) the madder growers</copyright>", ("LICENSE.md", "Take it and keep this line."), ("notices/weld.txt", "Weld is in it.")),
            Package("Woad", "<license type=\"file\">LICENSE</license><authors>woad growers</authors>", ("LICENSE", "Take it and keep this line.\r\n")),
        ]);
        Assert.Contains("\nMadder 1.0.0\n    Licence: MIT\n    Copyright: (c) the madder growers\n    Texts: 1, 2\n", notices, StringComparison.Ordinal);
        Assert.Contains("\nWoad 1.0.0\n    Licence: its own\n    Copyright: woad growers\n    Texts: 1\n", notices, StringComparison.Ordinal);
        Assert.Equal(2, notices.Split("keep this line.").Length);
        Assert.Contains("Weld is in it.", notices, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("MIT", "MIT License")]
    [InlineData("MIT-0", "MIT No Attribution")]
    [InlineData("MS-PL OR Apache-2.0", "Apache License")]
    [InlineData("BSD-2-Clause", "BSD 2-Clause License")]
    [InlineData("BSD-3-Clause", "BSD 3-Clause License")]
    public void A_package_that_brings_only_the_name_of_its_terms_gets_their_text(string name, string heading) =>
        Assert.Contains($"\nText 1\n\n{heading}", Notices.Write([Package("Weld", $"<license type=\"expression\">{name}</license>")]).Replace(new string(' ', 33), "", StringComparison.Ordinal), StringComparison.Ordinal);

    [Fact]
    public void One_without_terms_or_with_unknown_ones_is_refused()
    {
        Assert.Throws<InvalidDataException>(() => Package("Weld", "<licenseUrl>http://weld.example/terms</licenseUrl>"));
        Assert.Throws<InvalidDataException>(() => Notices.Write([Package("Woad", "<license type=\"expression\">Woad-1.0</license>")]));
    }

    private NuGetPackage Package(string id, string metadata, params (string File, string Text)[] texts)
    {
        var home = Directory.CreateDirectory(Path.Combine(_folder, id)).FullName;
        File.WriteAllText(Path.Combine(home, $"{id.ToLowerInvariant()}.nuspec"), $"<package xmlns=\"urn:nuspec\"><metadata><id>{id}</id>{metadata}</metadata></package>");
        foreach (var (file, text) in texts)
        {
            Directory.CreateDirectory(Path.GetDirectoryName(Path.Combine(home, file))!);
            File.WriteAllText(Path.Combine(home, file), text);
        }

        return NuGetPackage.Read(new(id, "1.0.0"), home);
    }
}
