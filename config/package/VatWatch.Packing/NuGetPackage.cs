using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using System.Xml.Linq;

namespace VatWatch.Packing;

/// <summary>What a package says of its makers and terms.</summary>
/// <param name="Name">Its id and version.</param>
/// <param name="Licence">An SPDX expression, or "its own" when it brings a text instead.</param>
/// <param name="Copyright">Its line of copyright, else its authors.</param>
/// <param name="Home">Where its makers are found; empty when it does not say.</param>
/// <param name="Texts">Its own licence and notices, by name of their file.</param>
internal sealed partial record NuGetPackage(PackageName Name, string Licence, string Copyright, string Home, IReadOnlyList<(string File, string Text)> Texts)
{
    /// <summary>Packages that only give an address for their terms, with what their makers publish there (from memory).</summary>
    private static readonly Dictionary<string, string> ByAddress = new(StringComparer.OrdinalIgnoreCase) { ["K4os.Compression.LZ4"] = "MIT" };

    /// <summary>Finds a package in the folders that a restore has used.</summary>
    public static NuGetPackage Find(PackageName name, string assets)
    {
        var folders = JsonNode.Parse(File.ReadAllText(assets))!["packageFolders"]!.AsObject().Select(folder => folder.Key).ToList();
        var id = name.Id.ToLowerInvariant();
        var home = folders.Select(folder => Path.Combine(folder, id, name.Version.ToLowerInvariant())).FirstOrDefault(Directory.Exists)
            ?? throw new InvalidDataException($"{name.Id} {name.Version} is shipped and in none of {string.Join(", ", folders)}");
        return Read(name, home);
    }

    /// <summary>Reads an unpacked package.</summary>
    public static NuGetPackage Read(PackageName name, string folder)
    {
        var metadata = XDocument.Load(Path.Combine(folder, $"{name.Id.ToLowerInvariant()}.nuspec")).Root!.Elements().First(element => element.Name.LocalName == "metadata");
        var texts = Directory.GetFiles(folder, "*", SearchOption.AllDirectories).Where(path => TermsFile().IsMatch(Path.GetFileName(path)) || TermsFolder().IsMatch(Path.GetRelativePath(folder, path)))
            .Order(StringComparer.Ordinal).Select(path => (Path.GetRelativePath(folder, path), File.ReadAllText(path).ReplaceLineEndings("\n").Trim())).ToList();
        var licence = metadata.Elements().FirstOrDefault(element => element.Name.LocalName == "license");
        var expression = licence?.Attribute("type")?.Value == "expression" ? licence.Value : ByAddress.GetValueOrDefault(name.Id, "");
        if (expression.Length == 0 && texts.Count == 0)
        {
            throw new InvalidDataException($"{name.Id} {name.Version} brings neither a licence nor its name; wanted one of them, or an entry in NuGetPackage.ByAddress");
        }

        return new(name, expression.Length > 0 ? expression : "its own", Value("copyright") is { Length: > 0 } copyright ? copyright : Value("authors"), Value("projectUrl"), texts);

        string Value(string element) => metadata.Elements().FirstOrDefault(child => child.Name.LocalName == element)?.Value.Trim() ?? "";
    }

    [GeneratedRegex(@"^(licen[cs]e|copying|notice|third-?party-?notices)[^/]*?(\.(txt|md))?$", RegexOptions.IgnoreCase | RegexOptions.CultureInvariant)]
    private static partial Regex TermsFile();

    [GeneratedRegex(@"^(notices|licen[cs]es)/[^/]+\.(txt|md)$", RegexOptions.IgnoreCase | RegexOptions.CultureInvariant)]
    private static partial Regex TermsFolder();
}
