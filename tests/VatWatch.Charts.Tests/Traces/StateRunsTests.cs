using VatWatch.Charts.Traces;
using VatWatch.Conditions;

namespace VatWatch.Charts.Tests.Traces;

public class StateRunsTests
{
    [Fact]
    public void Looks_of_one_state_are_one_run_until_the_first_look_that_differs()
    {
        var looks = new[] { VatState.Warming, VatState.Warming, VatState.Ready, VatState.Ready, VatState.Resting, VatState.Ready };
        Assert.Equal(
            [(VatState.Warming, 0.0, 2.0), (VatState.Ready, 2, 4), (VatState.Resting, 4, 5)],
            Runs(looks).Select(run => (run.State, Minute(run.From), Minute(run.To))));
    }

    [Fact]
    public void Looks_outside_the_record_are_not_shown() =>
        Assert.Equal(2, Minute(Runs([VatState.Ready, VatState.Ready, VatState.Ready, VatState.Weak, VatState.Weak], minutes: 2).Single().To));

    [Fact]
    public void A_state_that_changes_with_every_look_is_shown_by_what_held_longest()
    {
        // Two minutes ready, one unknown, for five days; the ribbon is bounded, and what holds longest is what it says.
        var runs = Runs([.. Enumerable.Range(0, 7200).Select(minute => minute < 3600 ? minute % 3 < 2 ? VatState.Ready : VatState.Unknown : VatState.Weak)], minutes: 7200);
        Assert.Equal([(VatState.Ready, 0.0), (VatState.Weak, 3600)], runs.Select(run => (run.State, Math.Round(Minute(run.From) / 12) * 12)));
        Assert.Equal(7199, Minute(runs[^1].To), 1e-6);
    }

    private static IReadOnlyList<StateRun> Runs(VatState[] states, double minutes = 10) => StateRuns.Of(Logs.Record(TimeSpan.FromMinutes(minutes), []) with
    {
        Conditions =
        [
            .. states.Select((state, i) => new VatCondition
            {
                Vat = NightOfWarming.Vat.Id,
                Stamp = NightOfWarming.StampAt(TimeSpan.FromMinutes(i)),
                State = state,
                Reasons = ["made up for a test"],
            }),
        ],
    });

    private static double Minute(DateTimeOffset moment) => (moment - NightOfWarming.Start).TotalMinutes;
}
