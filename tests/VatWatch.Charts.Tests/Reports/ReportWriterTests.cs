using System.Text;
using VatWatch.Charts.Export;
using VatWatch.Charts.Reports;

namespace VatWatch.Charts.Tests.Reports;

public sealed class ReportWriterTests : IDisposable
{
    private static readonly VatRecord Night = new NightOfWarming(every: TimeSpan.FromMinutes(1)).Record();
    private readonly string _folder = Directory.CreateTempSubdirectory("vatwatch-report").FullName;
    private readonly ReportWriter _writer = new(new ReportOptions { Zone = NightOfWarming.NewYork });

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    [Theory]
    [InlineData("night.csv", "time,probe,value")]
    [InlineData("night.PNG", "\u0089PNG")]
    [InlineData("night.svg", "<?xml")]
    [InlineData("night.html", "<!DOCTYPE html>")]
    [InlineData("night.pdf", "%PDF-")]
    public void The_extension_decides_the_format(string name, string begin)
    {
        var path = Path.Combine(_folder, name);
        _writer.Write(Night, path);
        Assert.StartsWith(begin, Encoding.Latin1.GetString(File.ReadAllBytes(path)), StringComparison.Ordinal);
        Assert.Equal([path], Directory.GetFiles(_folder));
    }

    [Theory]
    [InlineData("night.docx", "\".docx\"")]
    [InlineData("night", "\"\"")]
    public void Another_extension_is_refused_in_a_sentence_and_leaves_no_file(string name, string seen)
    {
        var refused = Assert.Throws<UnknownReportFormatException>(() => _writer.Write(Night, Path.Combine(_folder, name)));
        Assert.Contains($"'{name}' ends in {seen}; wanted .csv,", refused.Message);
        Assert.Empty(Directory.GetFiles(_folder));
    }

    [Fact]
    public void A_report_that_fails_half_way_leaves_the_older_one_alone()
    {
        var path = Path.Combine(_folder, "night.csv");
        File.WriteAllText(path, "older");
        var broken = Night with { Measurements = [Night.Measurements[0], null!] };
        Assert.ThrowsAny<Exception>(() => _writer.Write(broken, path));
        Assert.Equal("older", File.ReadAllText(path));
        Assert.Equal([path], Directory.GetFiles(_folder));
    }

    [Fact]
    public void A_csv_holds_every_reading_whatever_its_quality()
    {
        using var stream = new MemoryStream();
        _writer.Write(Night, "night.csv", stream);
        var lines = Encoding.UTF8.GetString(stream.ToArray()).Split("\r\n", StringSplitOptions.RemoveEmptyEntries);
        Assert.Equal(MeasurementCsv.Header, lines[0]);
        Assert.Equal(Night.Measurements.Count, lines.Length - 1);
    }
}
