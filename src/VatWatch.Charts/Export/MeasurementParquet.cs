using System.IO.Compression;
using Parquet;
using Parquet.Schema;
using VatWatch.Measurements;

namespace VatWatch.Charts.Export;

/// <summary>
/// Writes measurements as a Parquet file for other programs: plain columns, whole values, times as UTC timestamps of microseconds. Only one
/// row group is in memory.
/// </summary>
public static class MeasurementParquet
{
    private static readonly DateTimeDataField Time = new("time", DateTimeFormat.Timestamp, isAdjustedToUTC: true, unit: DateTimeTimeUnit.Micros, isNullable: false);
    private static readonly DataField<string> Probe = new("probe", false);
    private static readonly DataField<double> Value = new("value", true);
    private static readonly DataField<string> Unit = new("unit", false);
    private static readonly DataField<string> QualityWord = new("quality", false);
    private static readonly DataField<string> Reason = new("reason", true);
    private static readonly DataField<double> Raw = new("raw", true);
    private static readonly DataField<string> Vat = new("vat", false);
    private static readonly DataField<string> MeasuresWord = new("measures", false);
    private static readonly DataField<bool> UtcTrusted = new("utcTrusted", false);
    private static readonly DataField<long> Calibration = new("calibration", true);

    private static readonly ParquetSchema Schema = new(Time, Probe, Value, Unit, QualityWord, Reason, Raw, Vat, MeasuresWord, UtcTrusted, Calibration);

    /// <summary>Writes measurements as they come. The stream must be seekable and is left open.</summary>
    public static async Task WriteAsync(IEnumerable<Measurement> measurements, Stream stream, CancellationToken cancel)
    {
        var options = new ParquetOptions { CompressionMethod = CompressionMethod.Zstd, CompressionLevel = CompressionLevel.Optimal };
        await using var writer = await ParquetWriter.CreateAsync(Schema, stream, options, append: false, cancel);
        foreach (var rows in measurements.Chunk(GroupRows))
        {
            cancel.ThrowIfCancellationRequested();
            using var group = writer.CreateRowGroup();
            await WriteGroupAsync(group, rows);
        }
    }

    /// <summary>Readings in a row group: some 10 MB in memory, and large enough to compress well.</summary>
    private const int GroupRows = 65_536;

    private static async Task WriteGroupAsync(ParquetRowGroupWriter group, Measurement[] rows)
    {
        await group.WriteAsync<DateTime>(Time, Array.ConvertAll(rows, m => m.Stamp.Utc.UtcDateTime));
        await group.WriteAsync(Probe, Array.ConvertAll(rows, m => (string?)m.Probe.Value));
        await group.WriteAsync<double>(Value, Array.ConvertAll(rows, m => m.Value));
        await group.WriteAsync(Unit, Array.ConvertAll(rows, m => (string?)m.Quantity.Unit()));
        await group.WriteAsync(QualityWord, Array.ConvertAll(rows, m => (string?)m.Quality.Word()));
        await group.WriteAsync(Reason, Array.ConvertAll(rows, m => m.Reason));
        await group.WriteAsync<double>(Raw, Array.ConvertAll(rows, m => m.Raw));
        await group.WriteAsync(Vat, Array.ConvertAll(rows, m => (string?)m.Vat.Value));
        await group.WriteAsync(MeasuresWord, Array.ConvertAll(rows, m => (string?)m.Quantity.Word()));
        await group.WriteAsync<bool>(UtcTrusted, Array.ConvertAll(rows, m => m.Stamp.UtcTrusted));
        await group.WriteAsync<long>(Calibration, Array.ConvertAll(rows, m => m.Calibration));
    }
}
