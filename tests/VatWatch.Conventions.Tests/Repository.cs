namespace VatWatch.Conventions.Tests;

/// <summary>The source tree these tests look at.</summary>
internal static class Repository
{
    public static string Root { get; } = Find();

    public static IEnumerable<string> Sources(string folder) =>
        Directory.EnumerateFiles(Path.Combine(Root, folder), "*.cs", SearchOption.AllDirectories)
            .Where(file => !IsBuilt(Path.GetRelativePath(Root, file)));

    public static string Relative(string file) => Path.GetRelativePath(Root, file);

    private static bool IsBuilt(string relative) => relative.Split('/').Any(part => part is "bin" or "obj");

    private static string Find()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (folder is not null && !File.Exists(Path.Combine(folder.FullName, "VatWatch.sln")))
        {
            folder = folder.Parent;
        }

        return folder?.FullName ?? throw new InvalidOperationException("these tests run inside a checkout: no VatWatch.sln above " + AppContext.BaseDirectory);
    }
}
