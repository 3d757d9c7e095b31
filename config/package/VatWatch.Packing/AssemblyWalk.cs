namespace VatWatch.Packing;

/// <summary>
/// Which assemblies a program can come to. A use of a type leads to the assembly that holds it, through those that hand it on; such an assembly of mere
/// references does not lead to everything it knows. Names in texts count as uses, because types and assemblies are found by them at run time.
/// </summary>
internal sealed class AssemblyWalk
{
    private readonly IReadOnlyDictionary<string, Assembly> _all;
    private readonly Dictionary<string, Assembly> _reached = new(StringComparer.Ordinal);
    private readonly Queue<Assembly> _next = [];

    private AssemblyWalk(IReadOnlyDictionary<string, Assembly> all) => _all = all;

    /// <summary>Walks from the roots; what is not in <paramref name="all"/> leads nowhere.</summary>
    public static IReadOnlyDictionary<string, Assembly> From(IReadOnlyDictionary<string, Assembly> all, params string[] roots)
    {
        var walk = new AssemblyWalk(all);
        foreach (var root in roots)
        {
            walk.Reach(root);
        }

        while (walk._next.TryDequeue(out var assembly))
        {
            walk.Leave(assembly);
        }

        return walk._reached;
    }

    private void Leave(Assembly assembly)
    {
        foreach (var use in assembly.Uses.Concat(assembly.TypesInTexts))
        {
            Find(use);
        }

        foreach (var text in assembly.Texts.Where(_all.ContainsKey))
        {
            Reach(text);
        }
    }

    private void Find(TypeUse use)
    {
        for (var assembly = Reach(use.Assembly); assembly is not null && assembly.Forwards.TryGetValue(use.Type, out var next);)
        {
            assembly = Reach(next);
        }
    }

    private Assembly? Reach(string name)
    {
        if (_all.TryGetValue(name, out var assembly) && _reached.TryAdd(name, assembly))
        {
            _next.Enqueue(assembly);
        }

        return assembly;
    }
}
