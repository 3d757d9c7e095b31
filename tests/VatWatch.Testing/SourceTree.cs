namespace VatWatch.Testing;

/// <summary>Finds files of the source tree that a test run was built from, such as the samples in <c>config</c>.</summary>
internal static class SourceTree
{
    /// <summary>The folder of the solution.</summary>
    public static string Root { get; } = FindRoot();

    /// <summary>Path of a file or folder below the root.</summary>
    public static string At(params string[] parts) => Path.Combine([Root, .. parts]);

    private static string FindRoot()
    {
        for (var folder = new DirectoryInfo(AppContext.BaseDirectory); folder is not null; folder = folder.Parent)
        {
            if (File.Exists(Path.Combine(folder.FullName, "VatWatch.sln")))
            {
                return folder.FullName;
            }
        }

        throw new DirectoryNotFoundException($"no VatWatch.sln above {AppContext.BaseDirectory}");
    }
}
