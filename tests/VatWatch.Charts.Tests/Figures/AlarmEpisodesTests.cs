using VatWatch.Alarms;
using VatWatch.Charts.Figures;
using static VatWatch.Alarms.AlarmState;

namespace VatWatch.Charts.Tests.Figures;

public class AlarmEpisodesTests
{
    private static AlarmChange At(int minute, AlarmState before, AlarmState after, string? by = null, int? since = null) =>
        NightOfWarming.Change("overheat", before, after, TimeSpan.FromMinutes(minute), TimeSpan.FromMinutes(since ?? minute), by);

    private static int? Minute(VatWatch.Time.Stamp? stamp) => stamp is { } at ? (int)(at.Utc - NightOfWarming.Start).TotalMinutes : null;

    private static IEnumerable<(int?, int?, int?)> Times(params AlarmChange[] changes) =>
        AlarmEpisodes.Of(changes).Select(episode => (Minute(episode.Entered), Minute(episode.Acknowledged), Minute(episode.Returned)));

    [Fact]
    public void Entering_acknowledging_and_returning_make_one_episode()
    {
        var episode = Assert.Single(AlarmEpisodes.Of(
            [At(5, Normal, Unacknowledged), At(9, Unacknowledged, Acknowledged, "Ada", since: 5), At(30, Acknowledged, Normal)]));
        Assert.Equal((5, 9, 30), (Minute(episode.Entered), Minute(episode.Acknowledged), Minute(episode.Returned)));
        Assert.Equal((TimeSpan.FromMinutes(4), "Ada", false), (episode.TimeToAcknowledge, episode.AcknowledgedBy, episode.Stands));
    }

    [Fact]
    public void An_acknowledgement_after_the_return_counts_from_entering() => Assert.Equal(
        [(5, 20, 8)],
        Times(At(5, Normal, Unacknowledged), At(8, Unacknowledged, ReturnedUnacknowledged, since: 5), At(20, ReturnedUnacknowledged, Normal, "Ada")));

    [Fact]
    public void A_note_beside_an_alarm_is_no_part_of_its_story() => Assert.Equal(
        [(5, null, null)],
        Times(At(5, Normal, Unacknowledged), At(9, Acknowledged, Acknowledged, "Ada", since: 5) with { Note = "the lid was shut" }));

    [Fact]
    public void A_condition_that_comes_back_unseen_is_a_second_episode() => Assert.Equal(
        [(5, null, 8), (12, 14, null)],
        Times(
            At(5, Normal, Unacknowledged), At(8, Unacknowledged, ReturnedUnacknowledged, since: 5),
            At(12, ReturnedUnacknowledged, Unacknowledged), At(14, Unacknowledged, Acknowledged, "Ada", since: 12)));

    [Fact]
    public void An_alarm_that_stood_before_the_record_began_keeps_its_true_start() =>
        Assert.Equal([(-40, 3, null)], Times(At(3, Unacknowledged, Acknowledged, "Ada", since: -40)));

    [Fact]
    public void A_shelved_alarm_is_set_aside_not_returned()
    {
        var episode = Assert.Single(AlarmEpisodes.Of([At(5, Normal, Unacknowledged), At(7, Unacknowledged, Shelved, "Ada")]));
        Assert.Equal((7, null, false), (Minute(episode.SetAside), Minute(episode.Returned), episode.Stands));
    }

    [Fact]
    public void A_change_between_states_that_never_stood_is_no_episode() =>
        Assert.Empty(AlarmEpisodes.Of([At(1, Normal, Shelved), At(2, Shelved, Normal)]));
}
