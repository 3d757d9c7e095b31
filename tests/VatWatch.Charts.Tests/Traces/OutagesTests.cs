using VatWatch.Charts.Traces;

namespace VatWatch.Charts.Tests.Traces;

public class OutagesTests
{
    private static IReadOnlyList<Outage> Of(VatRecord record) => Outages.Of(ProbeTrace.Of(record).Single(), record);

    [Fact]
    public void A_gap_a_fault_and_silence_at_both_ends_are_each_told()
    {
        var readings = new (double, double?)[] { (10, 40), (11, 40), (12, null), (13, null), (14, 40), (15, 40), (30, 40), (31, 40) };
        var outages = Of(Logs.Liquor(readings) with { To = NightOfWarming.Start.AddMinutes(60) });

        Assert.Equal(
            [
                (OutageKind.NoRecord, 0, 10, 0), (OutageKind.Fault, 12, 14, 2), (OutageKind.NoRecord, 15, 30, 0), (OutageKind.NoRecord, 31, 60, 0),
            ],
            outages.Select(outage => (outage.Kind, Minute(outage.From), Minute(outage.To), outage.Readings)));
        Assert.Equal("open circuit", outages[1].Reason);
        Assert.Equal([true, false, true, true], outages.Select(outage => outage.IsLong));
        Assert.Equal(TimeSpan.FromMinutes(2), outages[1].Length);
    }

    [Fact]
    public void A_probe_that_reads_all_night_has_none() => Assert.Empty(Of(Logs.Liquor([(0, 40), (1, 40), (2, 40), (3, 40)])));

    [Fact]
    public void A_fault_before_a_gap_ends_where_the_gap_begins()
    {
        var outages = Of(Logs.Liquor([(0, 40), (1, 40), (2, null), (3, null), (20, 40), (21, 40), (22, 40)]));
        Assert.Equal([(2, 3), (3, 20)], outages.Select(outage => (Minute(outage.From), Minute(outage.To))));
    }

    private static int Minute(DateTimeOffset moment) => (int)(moment - NightOfWarming.Start).TotalMinutes;
}
