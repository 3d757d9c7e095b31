using VatWatch.Conditions;
using VatWatch.Conditions.Stored;
using VatWatch.Tests.Store;

namespace VatWatch.Tests.Conditions.Stored;

public sealed class ConditionTableTests
{
    private static readonly TimeSpan Keep = TimeSpan.FromDays(400);

    [Fact]
    public async Task A_condition_comes_back_with_its_words_and_its_finite_numbers()
    {
        await using var rig = StoreRig.Start();
        await AppendAsync(rig, KeptCondition.At(3, VatState.TooCold, 35.123456, trusted: false));
        var kept = Assert.Single(rig.Read(reader => ConditionTable.After(reader, 0, 10)));
        Assert.Equal((1, StoreRig.Dusk.AddSeconds(3), false, StoreRig.Madder, "too cold"), (kept.Id, kept.Utc, kept.UtcTrusted, kept.Vat, kept.State));
        Assert.Equal(["The liquor is warm.", "It is \"watched\" at 96 °F."], kept.Reasons);
        Assert.Equal(new Dictionary<string, double> { ["temperatureC"] = 35.1235, ["minutesToBandEarly"] = 40, ["minutesToBand"] = 50 }, kept.Numbers);
    }

    [Fact]
    public async Task The_same_condition_again_is_not_written_twice()
    {
        await using var rig = StoreRig.Start();
        await AppendAsync(rig, KeptCondition.At(1));
        await AppendAsync(rig, KeptCondition.At(1), KeptCondition.At(2));
        Assert.Equal(2, rig.Read(reader => ConditionTable.After(reader, 0, 10)).Count);
    }

    [Fact]
    public async Task A_stretch_is_read_by_label_and_a_follower_goes_by_number()
    {
        await using var rig = StoreRig.Start();
        await AppendAsync(rig, KeptCondition.At(100), KeptCondition.At(200), KeptCondition.At(150));
        Assert.Equal([100.0, 150], rig.Read(reader => Seconds(ConditionTable.Between(reader, StoreRig.Madder, StoreRig.Dusk, StoreRig.Dusk.AddSeconds(200)))));
        Assert.Empty(rig.Read(reader => ConditionTable.Between(reader, StoreRig.Weld, StoreRig.Dusk, StoreRig.Dusk.AddSeconds(200))));
        Assert.Equal([200.0, 150], rig.Read(reader => Seconds(ConditionTable.After(reader, 1, 10))));
        Assert.Equal((0, 1, 3), rig.Read(reader => (
            ConditionTable.Before(reader, StoreRig.Dusk),
            ConditionTable.Before(reader, StoreRig.Dusk.AddSeconds(120)),
            ConditionTable.Before(reader, StoreRig.Dusk.AddSeconds(300)))));
    }

    [Fact]
    public async Task Old_ones_go_at_most_twice_as_fast_as_new_ones_come_and_never_by_an_untrusted_label()
    {
        await using var rig = StoreRig.Start();
        var later = Keep.TotalSeconds + 1000;
        await AppendAsync(rig, [.. Enumerable.Range(0, 10).Select(second => KeptCondition.At(second))]);
        await AppendAsync(rig, KeptCondition.At(later, trusted: false));
        Assert.Equal(11, rig.Read(reader => ConditionTable.After(reader, 0, 100)).Count);

        // Between those and this nothing is known: the clock may have leapt ahead.
        await AppendAsync(rig, KeptCondition.At(later + 1));
        Assert.Equal(12, rig.Read(reader => ConditionTable.After(reader, 0, 100)).Count);

        var between = Keep.TotalSeconds / 4;
        await AppendAsync(rig, KeptCondition.At(between));
        await AppendAsync(rig, KeptCondition.At(later + 2));
        Assert.Equal([2.0, 3, 4, 5, 6, 7, 8, 9, later, later + 1, between, later + 2], rig.Read(reader => Seconds(ConditionTable.After(reader, 0, 100))));
    }

    private static List<double> Seconds(IReadOnlyList<StoredCondition> conditions) => [.. conditions.Select(one => (one.Utc - StoreRig.Dusk).TotalSeconds)];

    private static Task<int> AppendAsync(StoreRig rig, params VatCondition[] conditions) => rig.WriteAsync(work =>
    {
        ConditionTable.Append(work, conditions, Keep);
        return 0;
    });
}
