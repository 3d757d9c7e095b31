using VatWatch.Charts.Traces;
using VatWatch.Store.Series;

namespace VatWatch.Charts.Tests.Traces;

public class ColumnReadingsTests
{
    private static readonly DateTimeOffset Start = NightOfWarming.Start;

    [Fact]
    public void A_column_gives_first_lowest_highest_and_last_in_order_of_time()
    {
        var readings = ColumnReadings.Of(NightOfWarming.Vat.Probes[0], Column(first: 40, last: 44, count: 60)).ToArray();
        Assert.Equal([40, 30, 60, 44], readings.Select(reading => reading.Value!.Value));
        Assert.Equal(readings.Select(reading => reading.Stamp.Utc).Order(), readings.Select(reading => reading.Stamp.Utc));
        Assert.InRange(readings[^1].Stamp.Utc, Start.AddMinutes(14), Start.AddMinutes(15));
    }

    [Fact]
    public void A_falling_column_has_its_highest_first() => Assert.Equal(
        [44, 60, 30, 40], ColumnReadings.Of(NightOfWarming.Vat.Probes[0], Column(first: 44, last: 40, count: 60)).Select(reading => reading.Value!.Value));

    [Fact]
    public void A_single_value_stays_one() =>
        Assert.Equal(41, Assert.Single(ColumnReadings.Of(NightOfWarming.Vat.Probes[0], Column(first: 41, last: 41, count: 1))).Value);

    [Fact]
    public void A_heater_is_on_for_its_share_of_the_column_and_a_doubtful_column_says_so()
    {
        var heater = NightOfWarming.Vat.Probes[0] with { Quantity = Quantity.Heater };
        var readings = ColumnReadings.Of(heater, Column(first: 1, last: 0, count: 60) with { Mean = 0.4, Worst = Quality.Suspect }).ToArray();
        Assert.Equal([(Start, 1.0), (Start.AddMinutes(6), 0.0)], readings.Select(reading => (reading.Stamp.Utc, reading.Value!.Value)));
        Assert.All(readings, reading => Assert.Equal(Quality.Suspect, reading.Quality));
    }

    private static MeasurementColumn Column(double first, double last, long count) => new(Start, Start.AddMinutes(15), first, last, 30, 60, 43, count, Quality.Good, false);
}
