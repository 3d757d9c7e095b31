using CsCheck;
using VatWatch.Measurements;
using VatWatch.Store.Series;
using static VatWatch.Tests.Store.StoreRig;

namespace VatWatch.Tests.Store.Series;

public sealed class MeasurementTableTests
{
    private static Gen<T> AnyOf<T>(params T[] values) => Gen.Int[0, values.Length - 1].Select(i => values[i]);

    private static readonly Gen<double?> Number = Gen.OneOf(
        Gen.Const((double?)null),
        Gen.Int[-99_999, 99_999].Select(n => (double?)(n / 100.0)),
        Gen.Double.Select(d => (double?)d),
        AnyOf<double?>(0.0, -0.0, double.NaN, double.PositiveInfinity, double.NegativeInfinity, double.Epsilon, double.MaxValue, 1e15, 0.1 + 0.2));

    private static readonly Gen<string?> Reason = Gen.OneOf(Gen.Const((string?)null), Gen.String.Select(s => (string?)s.Replace("\0", "", StringComparison.Ordinal)));

    // Microseconds are what the store keeps (FORMAT.md), so whole ones are what must come back.
    private static readonly Gen<Stamp> Moment = Gen.Select(
        Gen.OneOf(Gen.Long[0, 200], Gen.Long[-60_000_000_000, 60_000_000_000], Gen.Long[-62_000_000_000_000_000, 62_000_000_000_000_000]),
        Gen.OneOf(Gen.Long[0, 40_000_000], Gen.Long[0, 10_000_000_000_000_000]),
        Gen.Const(true), // labels that were not trusted: TimestampCorrectionTests
        (utc, monotonic, trusted) => new Stamp(Dusk.AddTicks(utc * 10), TimeSpan.FromMicroseconds(monotonic), trusted));

    private static readonly Gen<Measurement> Row = Gen.Select(
        AnyOf(Madder, Weld),
        AnyOf("liquor", "reserve", "electrode").Select(name => new ProbeId(name)),
        Gen.Enum<Quantity>(),
        Moment,
        Gen.Select(Number, Number, Gen.Bool, (raw, value, same) => (Raw: raw, Value: same ? raw : value)),
        Gen.Enum<Quality>(),
        Reason,
        Gen.OneOf(Gen.Const((long?)null), Gen.Long.Select(n => (long?)n)),
        (vat, probe, measures, stamp, numbers, quality, reason, calibration) =>
            new Measurement(vat, probe, measures, stamp, numbers.Raw, numbers.Value, quality, reason, calibration));

    [Fact]
    public async Task Whatever_is_offered_comes_back_the_same_in_order_of_time()
    {
        await using var rig = Start();
        List<Measurement> offered = [];
        Row.List[0, 200].Sample(
            batch =>
            {
                rig.OfferAsync(batch).GetAwaiter().GetResult();
                offered.AddRange(batch);
            },
            iter: 30,
            threads: 1);

        var kept = rig.All();

        Assert.Equal(offered.OrderBy(m => m.Stamp.Utc).Select(Bits), kept.Select(Bits));
        Assert.True(offered.Count > 1000);
    }

    /// <summary>Doubles by their bits, so that the sign of zero and NaN count.</summary>
    private static (Measurement, long?, long?) Bits(Measurement m) => (
        m with { Raw = null, Value = null },
        m.Raw is { } raw ? BitConverter.DoubleToInt64Bits(raw) : null,
        m.Value is { } value ? BitConverter.DoubleToInt64Bits(value) : null);

    [Fact]
    public async Task Readings_of_one_probe_and_moment_are_all_kept()
    {
        await using var rig = Start();
        var same = Enumerable.Range(0, 200).Select(number => Reading(5, number)).ToList();
        await rig.OfferAsync(Reading(9));
        await rig.OfferAsync(same);

        var kept = rig.All();

        Assert.Equal(same.Select(m => m.Value), kept[..200].Select(m => m.Value));
        // 64 fit in a microsecond; the rest moves on by one each (FORMAT.md).
        Assert.All(kept[..200], m => Assert.InRange(m.Stamp.Utc, same[0].Stamp.Utc, same[0].Stamp.Utc.AddMicroseconds(3)));
    }

    [Fact]
    public async Task A_clock_set_back_keeps_both_nights_and_the_durations()
    {
        await using var rig = Start();
        await rig.OfferAsync(Reading(0, 40.1, monotonicSeconds: 0), Reading(3600, 41.2, monotonicSeconds: 3600));
        await rig.OfferAsync(Reading(0, 41.3, monotonicSeconds: 3605), Reading(5, 41.4, monotonicSeconds: 3610));

        var kept = rig.All();

        Assert.Equal([40.1, 41.3, 41.4, 41.2], kept.Select(m => m.Value!.Value));
        Assert.Equal([0, 3605, 3610, 3600], kept.Select(m => m.Stamp.Monotonic.TotalSeconds));
    }

    [Fact]
    public async Task A_clock_that_drifts_against_the_monotonic_one_keeps_both_exactly()
    {
        await using var rig = Start();
        // 200 ppm and then a step of ten minutes; both need the skew of FORMAT.md.
        var drifting = Enumerable.Range(0, 500)
            .Select(n => Reading(0) with { Stamp = new(Dusk.AddSeconds(n * 5 + (n > 300 ? 600 : 0)).AddMilliseconds(n), TimeSpan.FromSeconds(n * 5), true) })
            .ToList();
        await rig.OfferAsync(drifting);
        Assert.Equal(drifting, rig.All());
    }

    [Fact]
    public async Task Rollups_equal_what_is_worked_out_from_the_readings()
    {
        await using var rig = Start();
        var readings = Enumerable.Range(0, 1000)
            .Select(n => Reading(n * 7 - 600, n % 11 == 0 ? null : 43 + Math.Sin(n) * (n % 97 == 0 ? 30 : 1)))
            .ToList();
        foreach (var batch in readings.Chunk(13))
        {
            await rig.OfferAsync(batch);
        }

        foreach (var quarters in (bool[])[false, true])
        {
            var width = TimeSpan.FromMinutes(quarters ? 15 : 1);
            var expected = readings.GroupBy(m => m.Stamp.Utc.UtcTicks / width.Ticks).Select(group =>
            {
                var values = group.Select(m => m.Value).OfType<double>().ToList();
                return new Rollup(
                    new(group.Key * width.Ticks, TimeSpan.Zero),
                    values.Count,
                    group.Max(m => m.Quality),
                    values.Count == 0 ? null : values[0],
                    values.Count == 0 ? null : values[^1],
                    values.Count == 0 ? null : values.Min(),
                    values.Count == 0 ? null : values.Max(),
                    values.Sum());
            }).ToList();
            var kept = rig.Read(reader => reader.Rollups(Madder, new("liquor"), DateTimeOffset.MinValue, DateTimeOffset.MaxValue, quarters));
            Assert.Equal(expected.Select(r => r with { Sum = 0 }), kept.Select(r => r with { Sum = 0 }));
            Assert.All(expected.Zip(kept), pair => Assert.Equal(pair.First.Sum, pair.Second.Sum, 1e-9));
        }
    }

    [Fact]
    public async Task Numbers_without_an_end_spoil_no_rollup()
    {
        await using var rig = Start();
        await rig.OfferAsync(Reading(0, 1), Reading(1, double.NaN), Reading(2, double.PositiveInfinity), Reading(3, 3));
        var rollup = Assert.Single(rig.Read(reader => reader.Rollups(Madder, new("liquor"), Dusk, Dusk.AddMinutes(1), false)));
        Assert.Equal((2L, 1.0, 3.0, 2.0), (rollup.Count, rollup.Min, rollup.Max, rollup.Mean));
    }

    [Fact]
    public async Task The_plain_view_shows_what_any_SQLite_program_can_read()
    {
        await using var rig = Start();
        await rig.OfferAsync(
            Reading(0.25, -623.4, "electrode", measures: Quantity.Orp) with { Value = -615.123456789, Calibration = 7 },
            Reading(1, null),
            Reading(-400_000_000.5, 43.0625));

        var rows = rig.Read(reader => reader.Sql.Query(
            "SELECT utc, raw, value, quality, reason, calibration, unit FROM measurement_plain",
            row => string.Join('|', Enumerable.Range(0, 7).Select(i => row.IsDBNull(i) ? "" : SQLitePCL.raw.sqlite3_column_text(row.Statement, i).utf8_to_string()))));

        Assert.Equal(
            [
                "2018-07-11T02:53:19.500000Z|43.0625|43.0625|good|||°C",
                "2031-03-14T18:00:00.250000Z|-623.4|-615.123456789|good||7|mV",
                "2031-03-14T18:00:01.000000Z|||missing|no reply within 500 ms||°C",
            ],
            rows);
    }
}
