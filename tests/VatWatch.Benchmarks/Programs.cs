namespace VatWatch.Benchmarks;

/// <summary>The programs that are measured, published once a run.</summary>
internal static class Programs
{
    private static readonly Lazy<string> DaemonFolder = new(() => ChildProcess.Publish("src/VatWatch.Daemon"));
    private static readonly Lazy<string> EmptyHostFolder = new(() => ChildProcess.Publish("tests/VatWatch.Benchmarks.EmptyHost"));

    public static string Daemon => Path.Combine(DaemonFolder.Value, "vatwatch");

    public static string EmptyHost => Path.Combine(EmptyHostFolder.Value, "VatWatch.Benchmarks.EmptyHost");
}
