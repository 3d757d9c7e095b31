namespace VatWatch.Packing;

/// <summary>A published folder, divided into what the program can come to and what is left out.</summary>
internal sealed class Shipment
{
    /// <summary>What starts the program, named by no code: its host, the runtime and the runtime's compiler.</summary>
    private static readonly string[] Start = ["libhostfxr", "libhostpolicy", "libcoreclr", "libclrjit"];

    /// <summary>Servers that the framework names, and that another system alone could start.</summary>
    private static readonly string[] Elsewhere =
    [
        "Microsoft.AspNetCore.Server.HttpSys", "Microsoft.AspNetCore.Server.IIS", "Microsoft.AspNetCore.Server.IISIntegration", "Microsoft.AspNetCore.Server.Kestrel.Transport.NamedPipes",
    ];

    /// <summary>
    /// What nobody asks for: the program that makes memory dumps for debuggers, which the service does not let in; and the shaper of scripts that run from right to left, which the
    /// plotting library uses only where that is switched on.
    /// </summary>
    private static readonly string[] Unasked = ["createdump", "libHarfBuzzSharp.so"];

    private readonly string _folder;
    private readonly DependencyManifest _manifest;

    private Shipment(string folder, string program, DependencyManifest manifest)
    {
        (_folder, _manifest) = (folder, manifest);
        var assemblies = Directory.GetFiles(folder, "*.dll").Select(Assembly.Read).OfType<Assembly>().ToDictionary(assembly => assembly.Name, StringComparer.Ordinal);
        if (!assemblies.ContainsKey(program))
        {
            throw new InvalidDataException($"{folder} has no {program}.dll; wanted a folder that was published");
        }

        var reached = AssemblyWalk.From(assemblies.Where(one => !Elsewhere.Contains(one.Key)).ToDictionary(StringComparer.Ordinal), program, "System.Private.CoreLib");
        var named = reached.Values.SelectMany(assembly => assembly.NativeLibraries.Concat(assembly.Texts)).Select(Bare).Concat(Start.Select(Bare)).ToHashSet(StringComparer.Ordinal);
        LeftOut =
        [
            .. assemblies.Keys.Where(name => !reached.ContainsKey(name)).Select(name => $"{name}.dll"),
            .. Directory.GetFiles(folder, "*.so").Select(path => Path.GetFileName(path)).Where(name => !named.Contains(Bare(name))),
            .. Unasked.Where(name => File.Exists(Path.Combine(folder, name))),
        ];
        RequireUnconfigured();
        LeftOutBytes = LeftOut.Sum(name => new FileInfo(Path.Combine(folder, name)).Length);
        _manifest.Remove(LeftOut);
    }

    /// <summary>Names of the files that no code comes to.</summary>
    public HashSet<string> LeftOut { get; }

    public long LeftOutBytes { get; }

    /// <summary>The packages of which something is shipped.</summary>
    public IReadOnlyList<PackageName> Packages => _manifest.Packages;

    public static Shipment Of(string folder, string program) => new(folder, program, DependencyManifest.Read(Path.Combine(folder, $"{program}.deps.json")));

    /// <summary>Takes out what is left out, from the folder and from the list that the host checks.</summary>
    public void Settle()
    {
        foreach (var name in LeftOut)
        {
            File.Delete(Path.Combine(_folder, name));
        }

        _manifest.Write();
    }

    /// <summary>"libSystem.Native.so", "libSystem.Native" and "System.Native" are one library, by whatever name code calls it.</summary>
    private static string Bare(string library)
    {
        var name = library.EndsWith(".so", StringComparison.Ordinal) ? library[..^3] : library;
        return name.StartsWith("lib", StringComparison.Ordinal) ? name[3..] : name;
    }

    /// <summary>A collector of another kind, say, is named in the program's settings and by no code.</summary>
    private void RequireUnconfigured()
    {
        foreach (var path in Directory.GetFiles(_folder, "*.runtimeconfig.json"))
        {
            var settings = File.ReadAllText(path);
            if (LeftOut.FirstOrDefault(name => settings.Contains($"\"{name}\"", StringComparison.Ordinal)) is { } wanted)
            {
                throw new InvalidDataException($"{Path.GetFileName(path)} names {wanted}, which no code comes to; wanted settings without it, or its name among what starts the program");
            }
        }
    }
}
