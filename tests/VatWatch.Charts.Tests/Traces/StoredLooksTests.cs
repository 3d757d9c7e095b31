using VatWatch.Charts.Traces;
using VatWatch.Conditions;
using VatWatch.Conditions.Stored;
using VatWatch.Measurements;

namespace VatWatch.Charts.Tests.Traces;

public sealed class StoredLooksTests
{
    private static readonly TimeSpan Hour = TimeSpan.FromHours(1);

    [Fact]
    public void A_column_has_the_state_that_held_longest_and_the_weakest_margin()
    {
        StoredState[] states =
        [
            At(-30, VatState.Ready, -150), At(10, VatState.Resting, -40), At(25, VatState.Ready, -120), At(70, VatState.Weak, null), At(110, VatState.Ready, -90),
        ];
        var looks = Looks(states, hours: 3, Good(5), Good(65), Good(125));
        Assert.Equal([VatState.Ready, VatState.Weak, VatState.Ready, VatState.Ready], looks.Select(look => look.State));
        Assert.Equal([-40.0, -90, -90, -90], looks.Select(look => look.MarginMillivolts!.Value));
        Assert.Equal([0.0, 60, 120, 180], looks.Select(look => (look.Utc - NightOfWarming.Start).TotalMinutes));
    }

    [Fact]
    public void A_column_without_readings_says_nothing() =>
        Assert.Equal([VatState.Ready, VatState.Unknown, VatState.Unknown], Looks([At(0, VatState.Ready, -100)], hours: 2, Good(5)).Select(look => look.State));

    [Fact]
    public void Nothing_kept_gives_no_looks() => Assert.Empty(Looks([], hours: 2, Good(5)));

    [Fact]
    public void A_year_of_states_takes_no_more_memory_than_a_month_of_them()
    {
        var (month, looksOfMonth) = Allocated(30);
        var (year, looksOfYear) = Allocated(360);
        Assert.Equal((1201, 1201), (looksOfMonth, looksOfYear));
        // The states alone of a year, at 40 bytes each, would be 20 MB.
        Assert.InRange(year, 0, month + 100_000);
    }

    private static (long Bytes, int Looks) Allocated(int days)
    {
        IEnumerable<StoredState> Minutes()
        {
            for (var minute = 0; minute < days * 1440; minute++)
                yield return At(minute, (VatState)(minute / 7 % 5), -100 - minute % 9);
        }

        var before = GC.GetAllocatedBytesForCurrentThread();
        var looks = StoredLooks.Of(Minutes(), [Good(5)], NightOfWarming.Start, NightOfWarming.Start.AddDays(days), TimeSpan.FromDays(days) / 1200);
        return (GC.GetAllocatedBytesForCurrentThread() - before, looks.Count);
    }

    private static StoredState At(double minute, VatState state, double? margin) => new(NightOfWarming.Start.AddMinutes(minute), state, margin);

    private static Measurement Good(double minute) => NightOfWarming.Good("liquor", Quantity.Temperature, TimeSpan.FromMinutes(minute), 45);

    private static IReadOnlyList<VatSnapshot> Looks(StoredState[] states, int hours, params Measurement[] readings) =>
        StoredLooks.Of(states, readings, NightOfWarming.Start, NightOfWarming.Start + hours * Hour, Hour);
}
