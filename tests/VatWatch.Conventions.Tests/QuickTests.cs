using System.Text.RegularExpressions;

namespace VatWatch.Conventions.Tests;

/// <summary><c>tests/run quick</c> leaves out what starts other processes, which a class says by a trait.</summary>
public sealed partial class QuickTests
{
    [Theory]
    [InlineData("tests/VatWatch.Tests")]
    [InlineData("tests/VatWatch.Charts.Tests")]
    [InlineData("tests/VatWatch.Daemon.Tests")]
    public void A_test_that_starts_another_process_says_so(string folder) => Assert.Empty(Repository.Sources(folder)
        .Where(file => File.ReadAllText(file) is var text && IsTest().IsMatch(text) && Starts().IsMatch(text) && !text.Contains("""Trait("Starts", "processes")""", StringComparison.Ordinal))
        .Select(Repository.Relative));

    [GeneratedRegex(@"\[(Fact|Theory)")]
    private static partial Regex IsTest();

    [GeneratedRegex(@"\b(Process\.Start|ProcessStartInfo|PtyInstrument|MosquittoBroker|MosquittoSub|PythonServer|VictoriaMetricsServer|ToolRun|Poppler)\b")]
    private static partial Regex Starts();
}
