using Parquet;
using VatWatch.Charts.Export;
using static VatWatch.Tests.Store.StoreRig;

namespace VatWatch.Charts.Tests.Export;

public sealed class MeasurementParquetTests
{
    [Fact]
    public async Task Another_program_reads_times_probes_and_whole_values_first()
    {
        using var stream = new MemoryStream();
        await MeasurementParquet.WriteAsync(
            [Reading(1.5), Reading(2, -640.5, "platinum", measures: Quantity.Orp) with { Value = -634.13 }, Reading(3, null)], stream, TestContext.Current.CancellationToken);

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
}
