using VatWatch.Alarms.Lifecycle;
using CsCheck;

namespace VatWatch.Tests.Alarms.Lifecycle;

/// <summary>Random sequences of inputs, played on the lifecycle and on <see cref="ReferenceAlarm"/>, which shares nothing with it but the table of states.</summary>
public sealed class AlarmLifecyclePropertyTests
{
    private static readonly string[] Inputs =
        ["met", "met", "met", "clear", "clear", "unknown", "worse", "critical", "off", "met-off", "ack", "reset", "shelve", "unshelve", "remove", "return"];

    private static readonly Gen<(int Input, int Wait)[]> Sequences =
        Gen.Select(Gen.Int[0, Inputs.Length - 1], Gen.OneOf(Gen.Int[0, 12], Gen.Int[0, 400])).Array[1, 24];

    [Fact]
    public void Agrees_with_the_reference_model_on_random_sequences() =>
        Gen.Select(Gen.Bool, Sequences).Sample(
            (latch, steps) =>
            {
                var lifecycle = new AlarmLifecycle(LifecycleScript.Settings(latch));
                var reference = new ReferenceAlarm(latch);
                var second = 0;
                foreach (var (input, wait) in steps)
                {
                    second += wait;
                    var told = LifecycleScript.Give(lifecycle, Inputs[input], TimeSpan.FromSeconds(second))?.Announce ?? false;
                    if (reference.Give(Inputs[input], second) != told || reference.State != lifecycle.State.Word())
                    {
                        return false;
                    }
                }

                return true;
            },
            iter: 100_000);

    private static readonly string[] Seen = ["met", "clear", "off", "met-off"];
    private static readonly string[] Done = ["ack", "reset", "shelve", "unshelve", "remove", "return"];
    private static readonly Gen<(string Input, int Wait, bool Restart)[]> Nights =
        Gen.Select(Gen.OneOf(Gen.Int[0, 3].Select(i => Seen[i]), Gen.Int[0, 5].Select(i => Done[i])), Gen.Int[1, 400], Gen.Bool).Array[1, 24];

    [Fact]
    public void A_restart_at_any_moment_leads_to_the_same_states() =>
        Gen.Select(Gen.Bool, Nights).Sample(
            (latch, steps) =>
            {
                // Without delays, which a restart may begin anew.
                var settings = LifecycleScript.Settings(latch) with { OnDelay = TimeSpan.Zero, OffDelay = TimeSpan.Zero, Repeat = TimeSpan.FromDays(1), ReAlarm = null };
                var (steady, restarted) = (new AlarmLifecycle(settings), new AlarmLifecycle(settings));
                var (now, shelved, seen, stood) = (TimeSpan.Zero, TimeSpan.Zero, "clear", false);
                foreach (var (input, wait, restart) in steps)
                {
                    now += TimeSpan.FromSeconds(wait);
                    seen = Seen.Contains(input) ? input : seen;
                    LifecycleScript.Give(steady, input, now);
                    if (LifecycleScript.Give(restarted, input, now) is not null)
                    {
                        // This is what the journal keeps.
                        (shelved, stood) = (input == "shelve" ? now : shelved, restarted.Stands);
                    }

                    if (restart)
                    {
                        var kept = LifecycleScript.Kept(restarted.State, stood, restarted.IsSeen);
                        restarted = new AlarmLifecycle(settings);
                        restarted.Restore(kept, shelved + TimeSpan.FromSeconds(600) - now, TimeSpan.Zero, now);
                        LifecycleScript.Give(restarted, seen, now);
                        LifecycleScript.Give(steady, seen, now);
                    }

                    if (steady.State != restarted.State)
                    {
                        return false;
                    }
                }

                return true;
            },
            iter: 20_000);
}
