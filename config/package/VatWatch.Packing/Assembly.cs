using System.Reflection.Metadata;
using System.Reflection.Metadata.Ecma335;
using System.Reflection.PortableExecutable;
using System.Text;
using System.Text.RegularExpressions;

namespace VatWatch.Packing;

/// <summary>A type by its full name and the assembly in which it is looked for.</summary>
internal readonly record struct TypeUse(string Assembly, string Type);

/// <summary>What the metadata of one assembly says of others: the types it uses, those it hands on to another assembly, and the names in its texts.</summary>
internal sealed partial class Assembly
{
    private Assembly(MetadataReader reader)
    {
        Name = reader.GetString(reader.GetAssemblyDefinition().Name);
        Uses = [.. reader.TypeReferences.Select(handle => reader.GetTypeReference(handle)).Where(type => type.ResolutionScope.Kind == HandleKind.AssemblyReference)
            .Select(type => new TypeUse(AssemblyName(reader, type.ResolutionScope), FullName(reader, type.Namespace, type.Name)))];
        Forwards = reader.ExportedTypes.Select(handle => reader.GetExportedType(handle)).Where(type => type.Implementation.Kind == HandleKind.AssemblyReference)
            .ToDictionary(type => FullName(reader, type.Namespace, type.Name), type => AssemblyName(reader, type.Implementation), StringComparer.Ordinal);
        Texts = [.. UserStrings(reader)];
        TypesInTexts = [.. Texts.Concat(AttributeTexts(reader)).SelectMany(text => QualifiedType().Matches(text)).Select(match => new TypeUse(match.Groups["assembly"].Value, match.Groups["type"].Value))];
        NativeLibraries = [.. Enumerable.Range(1, reader.GetTableRowCount(TableIndex.ModuleRef)).Select(row => reader.GetString(reader.GetModuleReference(MetadataTokens.ModuleReferenceHandle(row)).Name))];
    }

    public string Name { get; }

    /// <summary>Types of other assemblies that its code names.</summary>
    public HashSet<TypeUse> Uses { get; }

    /// <summary>Types that are looked for here and live elsewhere, with the assembly to look in.</summary>
    public IReadOnlyDictionary<string, string> Forwards { get; }

    /// <summary>The string constants of its code.</summary>
    public HashSet<string> Texts { get; }

    /// <summary>Types named with their assembly in constants and attributes: found by reflection when somebody asks.</summary>
    public HashSet<TypeUse> TypesInTexts { get; }

    /// <summary>Native libraries that it calls into, as it names them.</summary>
    public HashSet<string> NativeLibraries { get; }

    /// <summary>Reads a file; null when it is no assembly.</summary>
    public static Assembly? Read(string path)
    {
        using var file = File.OpenRead(path);
        using var image = new PEReader(file);
        if (!image.HasMetadata)
        {
            return null;
        }

        var reader = image.GetMetadataReader();
        return reader.IsAssembly ? new(reader) : null;
    }

    private static string AssemblyName(MetadataReader reader, EntityHandle reference) => reader.GetString(reader.GetAssemblyReference((AssemblyReferenceHandle)reference).Name);

    private static string FullName(MetadataReader reader, StringHandle space, StringHandle name) => space.IsNil ? reader.GetString(name) : $"{reader.GetString(space)}.{reader.GetString(name)}";

    private static IEnumerable<string> UserStrings(MetadataReader reader)
    {
        if (reader.GetHeapSize(HeapIndex.UserString) <= 1)
        {
            yield break;
        }

        for (var handle = MetadataTokens.UserStringHandle(1); !handle.IsNil; handle = reader.GetNextHandle(handle))
        {
            yield return reader.GetUserString(handle);
        }
    }

    private static IEnumerable<string> AttributeTexts(MetadataReader reader) =>
        reader.CustomAttributes.Select(handle => Encoding.Latin1.GetString(reader.GetBlobBytes(reader.GetCustomAttribute(handle).Value)));

    [GeneratedRegex(@"(?<type>[\w.]+)(?:[+`][\w+`]+)?, ?(?<assembly>\w[\w.-]*)", RegexOptions.CultureInvariant)]
    private static partial Regex QualifiedType();
}
