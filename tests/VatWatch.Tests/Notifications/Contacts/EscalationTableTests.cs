using VatWatch.Notifications.Contacts;
using static VatWatch.Tests.Store.StoreRig;

namespace VatWatch.Tests.Notifications.Contacts;

public sealed class EscalationTableTests
{
    [Fact]
    public async Task Calls_come_back_as_they_were_and_each_contact_has_its_own()
    {
        await using var rig = Start();
        StoredEscalation[] calls =
        [
            new(Madder, new("overheat"), Dusk, Dusk.AddMinutes(10), false, 0),
            new(Weld, new("probe-silent.liquor"), Dusk.AddSeconds(1), null, true, 3),
        ];
        await rig.WriteAsync(t =>
        {
            EscalationTable.Replace(t, "dyer", [new(Madder, new("cold"), Dusk, null, true, 0)]);
            EscalationTable.Replace(t, "dyer", calls);
            EscalationTable.Replace(t, "barn", calls[..1]);
            return 0;
        });
        Assert.Equal(calls, rig.Read(reader => EscalationTable.Read(reader, "dyer")));
        Assert.Equal(calls[..1], rig.Read(reader => EscalationTable.Read(reader, "barn")));
        Assert.Empty(rig.Read(reader => EscalationTable.Read(reader, "nobody")));
    }
}
