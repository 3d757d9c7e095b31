using CsCheck;
using VatWatch.Alarms;

namespace VatWatch.Tests.Alarms;

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
}
