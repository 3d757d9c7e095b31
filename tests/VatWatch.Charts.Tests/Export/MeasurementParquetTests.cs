using Parquet;
using VatWatch.Charts.Export;
using VatWatch.Measurements;

namespace VatWatch.Charts.Tests.Export;

public sealed class MeasurementParquetTests
{
    private static readonly DateTimeOffset Dusk = new(2031, 3, 14, 18, 0, 0, TimeSpan.Zero);

    [Fact]
    public async Task Another_program_reads_times_probes_and_whole_values_first()
    {
        using var stream = new MemoryStream();
        await MeasurementParquet.WriteAsync(
            [Reading(1.5, 43.62), Reading(2, -634.13, "platinum", Quantity.Orp), Reading(3, null)], stream, TestContext.Current.CancellationToken);

        stream.Position = 0;
        await using var reader = await ParquetReader.CreateAsync(stream, cancellationToken: TestContext.Current.CancellationToken);
        Assert.Equal(["time", "probe", "value"], reader.Schema.DataFields.Take(3).Select(field => field.Name));
        var group = reader.OpenRowGroupReader(0);
        var (times, values, reasons) = (new DateTime[3], new double?[3], new string?[3]);
        await group.ReadAsync<DateTime>(reader.Schema.FindDataField("time"), times.AsMemory(), cancellationToken: TestContext.Current.CancellationToken);
        await group.ReadAsync<double>(reader.Schema.FindDataField("value"), values.AsMemory(), cancellationToken: TestContext.Current.CancellationToken);
        await group.ReadAsync(reader.Schema.FindDataField("reason"), reasons.AsMemory(), cancellationToken: TestContext.Current.CancellationToken);
        Assert.Equal([Dusk.AddSeconds(1.5).UtcDateTime, Dusk.AddSeconds(2).UtcDateTime, Dusk.AddSeconds(3).UtcDateTime], times);
        Assert.Equal([43.62, -634.13, null], values);
        Assert.Equal([null, null, "no reply within 500 ms"], reasons);
    }

    private static Measurement Reading(double second, double? value, string probe = "liquor", Quantity quantity = Quantity.Temperature) => new(
        new VatId("madder-lane"), new ProbeId(probe), quantity, new Stamp(Dusk.AddSeconds(second), TimeSpan.FromSeconds(second), true), value, value,
        value is null ? Quality.Missing : Quality.Good, value is null ? "no reply within 500 ms" : null, null);
}
