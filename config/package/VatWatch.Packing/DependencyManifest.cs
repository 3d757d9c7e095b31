using System.Text.Json;
using System.Text.Json.Nodes;

namespace VatWatch.Packing;

/// <summary>The <c>.deps.json</c> beside a program: which package brought which file. The program's host refuses to start when a file named there is missing.</summary>
internal sealed class DependencyManifest
{
    private static readonly JsonSerializerOptions Indented = new() { WriteIndented = true };
    private static readonly string[] Kinds = ["runtime", "native"];
    private readonly string _path;
    private readonly JsonObject _root;

    private DependencyManifest(string path, JsonObject root) => (_path, _root) = (path, root);

    /// <summary>Name and version of every package that still brings a file, in order of their names.</summary>
    public IReadOnlyList<PackageName> Packages => [.. Entries.Where(entry => Lists(entry.Value).Any(list => list.Count > 0) && IsPackage(entry.Key)).Select(entry => PackageName.Parse(entry.Key))
        .OrderBy(package => package.Id, StringComparer.OrdinalIgnoreCase)];

    private IEnumerable<KeyValuePair<string, JsonNode?>> Entries => _root["targets"]!.AsObject().SelectMany(target => target.Value!.AsObject());

    public static DependencyManifest Read(string path) =>
        File.Exists(path) ? new(path, JsonNode.Parse(File.ReadAllText(path))!.AsObject()) : throw new InvalidDataException($"{path} is not there; wanted a folder that was published");

    /// <summary>Takes files out of it, by their names without folder.</summary>
    public void Remove(IReadOnlySet<string> files)
    {
        foreach (var list in Entries.SelectMany(entry => Lists(entry.Value)))
        {
            foreach (var file in list.Select(file => file.Key).Where(file => files.Contains(Path.GetFileName(file))).ToList())
            {
                list.Remove(file);
            }
        }
    }

    public void Write() => File.WriteAllText(_path, _root.ToJsonString(Indented));

    private static IEnumerable<JsonObject> Lists(JsonNode? entry) => Kinds.Select(kind => entry![kind]).OfType<JsonObject>();

    private bool IsPackage(string entry) => _root["libraries"]?[entry]?["type"]?.GetValue<string>() is "package" or "runtimepack";
}

/// <summary>A package by id and version, as its folder is called.</summary>
internal sealed record PackageName(string Id, string Version)
{
    private const string RuntimePack = "runtimepack.";

    public static PackageName Parse(string entry)
    {
        var parts = entry.Split('/');
        return new(parts[0].StartsWith(RuntimePack, StringComparison.Ordinal) ? parts[0][RuntimePack.Length..] : parts[0], parts[1]);
    }
}
