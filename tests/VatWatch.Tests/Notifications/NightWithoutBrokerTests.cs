using System.Globalization;
using VatWatch.Testing;
using VatWatch.Tests.Store;

namespace VatWatch.Tests.Notifications;

/// <summary>Sentences over a night without a broker, a kill and a break, by a process of its own with a real store, to a real mosquitto.</summary>
[Trait("Starts", "processes")]
public sealed class NightWithoutBrokerTests
{
    private const int Alarms = 200;

    [Fact]
    public async Task After_a_day_without_a_broker_and_a_kill_200_of_200_arrive_in_order_within_30_s_with_at_most_one_repeat_for_a_break()
    {
        var folder = StoreRig.NewFolder();
        await using var broker = await MosquittoBroker.StartAsync(new() { Persistent = true });
        using var phone = await MosquittoSub.StartAsync(new(broker.Port), "vatwatch/hill-studio/+/notification", session: "phone");
        await broker.StopAsync();
        var target = broker.Port.ToString(CultureInfo.InvariantCulture);
        int last;
        using (var first = new StoreHost("notify", folder, target, "1", $"{Alarms}"))
        {
            while (first.Next() != "90")
            {
            }

            var said = first.Kill();
            last = said.Count > 0 ? int.Parse(said[^1], CultureInfo.InvariantCulture) : 90;
        }

        using var second = new StoreHost("notify", folder, target, $"{last + 1}", $"{Alarms}");
        while (last < Alarms && second.Next() != $"{Alarms}")
        {
        }

        Assert.Empty(Numbers(phone));
        await broker.StartAgainAsync();
        await Eventually.TrueAsync(() => Numbers(phone).Count >= 40, "the first have come", TimeSpan.FromSeconds(30));
        await broker.StopAsync();
        await broker.StartAgainAsync();
        await Eventually.TrueAsync(() => Numbers(phone).Distinct().Count() == Alarms, "all have come", TimeSpan.FromSeconds(30));
        second.Kill();

        foreach (var parity in new[] { 0, 1 })
        {
            var vat = Numbers(phone).Where(number => number % 2 == parity).Distinct().ToList();
            Assert.Equal(vat.Order(), vat);
        }

        // Repeats are counted where they enter the broker: between broker and phone it repeats what the phone had not acknowledged.
        var sent = broker.Log.Split('\n').Count(line =>
            line.Contains("Received PUBLISH from vatwatch-hill-studio", StringComparison.Ordinal) && line.Contains("/notification'", StringComparison.Ordinal));
        Assert.InRange(sent, Alarms, Alarms + 1);
        Directory.Delete(folder, recursive: true);
    }

    private static List<int> Numbers(MosquittoSub phone) =>
        [.. phone.Messages.Where(message => message.Topic.EndsWith("/notification", StringComparison.Ordinal)).Select(message => int.Parse(message.Payload.Split(' ')[0], CultureInfo.InvariantCulture))];
}
