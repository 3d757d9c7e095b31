using VatWatch.Sessions;
using VatWatch.Sessions.Entries;

namespace VatWatch.Tests.Sessions;

public sealed class SessionTallyTests
{
    private static readonly DateTimeOffset Noon = new(2031, 3, 14, 12, 0, 0, TimeSpan.Zero);

    [Fact]
    public void The_usual_dip_is_the_middle_of_those_that_are_over()
    {
        var tally = SessionTally.Of([.. Dip(0, 4), .. Dip(10, 20), .. Dip(25, 60), .. Dip(70, null)]);
        Assert.Equal((TimeSpan.FromMinutes(10), TimeSpan.FromMinutes(6), TimeSpan.FromMinutes(49)), (tally.UsualDip, tally.UsualAiring, tally.InLiquor));
    }

    [Fact]
    public void Before_the_first_dip_is_over_nothing_is_usual()
    {
        var tally = SessionTally.Of(Dip(0, null));
        Assert.Equal((null, null, TimeSpan.Zero), (tally.UsualDip, tally.UsualAiring, tally.InLiquor));
    }

    private static SessionEntry[] Dip(int inMinute, int? outMinute) =>
        [Entry(EntryKind.DipIn, inMinute), .. outMinute is { } taken ? new[] { Entry(EntryKind.DipOut, taken) } : []];

    private static SessionEntry Entry(EntryKind kind, int minute) =>
        new() { Id = minute, Vat = new("madder-lane"), Kind = kind, At = new Stamp(Noon.AddMinutes(minute), TimeSpan.FromMinutes(minute), true), By = "anyone" };
}
