using VatWatch.Alarms.Lifecycle;
using VatWatch.Alarms;

namespace VatWatch.Tests.Alarms.Lifecycle;

/// <summary>
/// The transitions of the alarm state model of ANSI/ISA-18.2 / IEC 62682 (states A to I), row by row. On-delay 10 s, off-delay 20 s,
/// reminder after 300 s, re-alarm 900 s after acknowledgement. Each row is "second input expected-state", with "!" where the phone is told
/// and "-" where nothing must happen.
/// </summary>
public sealed class AlarmLifecycleTests
{
    [Theory]
    [InlineData("A to B: the condition is met for the on-delay", "0 met normal - | 9 met normal - | 10 met unacknowledged !")]
    [InlineData("A stays A: the condition is gone before the on-delay", "0 met normal - | 9 clear normal - | 60 clear normal -")]
    [InlineData("B to C: acknowledged", "0 met normal - | 10 met unacknowledged ! | 12 ack acknowledged")]
    [InlineData("B to D: gone unseen", "0 met normal - | 10 met unacknowledged ! | 11 clear unacknowledged - | 31 clear returned-unacknowledged !")]
    [InlineData("B stays B: gone for less than the off-delay", "0 met normal - | 10 met unacknowledged ! | 11 clear unacknowledged - | 30 clear unacknowledged - | 31 met unacknowledged -")]
    [InlineData("C to A: gone", "0 met normal - | 10 met unacknowledged ! | 12 ack acknowledged | 20 clear acknowledged - | 40 clear normal !")]
    [InlineData("C to B: it got worse", "0 met normal - | 10 met unacknowledged ! | 12 ack acknowledged | 20 worse unacknowledged !")]
    [InlineData("C to B: re-alarm time reached", "0 met normal - | 10 met unacknowledged ! | 12 ack acknowledged | 911 met acknowledged - | 912 met unacknowledged !")]
    [InlineData("C to B: priority rose", "0 met normal - | 10 met unacknowledged ! | 12 ack acknowledged | 20 critical unacknowledged !")]
    [InlineData("D to A: acknowledged", "0 met normal - | 10 met unacknowledged ! | 11 clear unacknowledged - | 31 clear returned-unacknowledged ! | 40 ack normal")]
    [InlineData("D to B: met again", "0 met normal - | 10 met unacknowledged ! | 11 clear unacknowledged - | 31 clear returned-unacknowledged ! | 40 met returned-unacknowledged - | 50 met unacknowledged !")]
    [InlineData("D is not told again", "0 met normal - | 10 met unacknowledged ! | 11 clear unacknowledged - | 31 clear returned-unacknowledged ! | 9000 clear returned-unacknowledged -")]
    [InlineData("B is told again until acknowledged", "0 met normal - | 10 met unacknowledged ! | 309 met unacknowledged - | 310 met unacknowledged ! | 609 met unacknowledged - | 610 met unacknowledged !")]
    [InlineData("C is not told again", "0 met normal - | 10 met unacknowledged ! | 12 ack acknowledged | 800 met acknowledged -")]
    [InlineData("B worse is told at once, and each step once", "0 met normal - | 10 met unacknowledged ! | 20 worse unacknowledged ! | 21 worse unacknowledged - | 22 met unacknowledged - | 23 worse unacknowledged -")]
    [InlineData("B with another cause is told at once, and each cause once", "0 met normal - | 10 met unacknowledged ! | 20 other unacknowledged ! | 21 met unacknowledged - | 22 other unacknowledged -")]
    [InlineData("C to B: another cause", "0 met normal - | 10 met unacknowledged ! | 12 ack acknowledged | 20 other unacknowledged ! | 21 ack acknowledged | 22 other acknowledged -")]
    [InlineData("a cause is told anew once the alarm was over", "0 other normal - | 10 other unacknowledged ! | 11 clear unacknowledged - | 31 clear returned-unacknowledged ! | 40 met returned-unacknowledged - | 50 met unacknowledged ! | 51 other unacknowledged !")]
    [InlineData("B with a higher priority is told at once, with a lower one after the off-delay", "0 met normal - | 10 met unacknowledged ! | 20 critical unacknowledged ! | 21 critical unacknowledged - | 22 met unacknowledged - | 41 met unacknowledged - | 42 met unacknowledged !")]
    [InlineData("B with a flickering priority is not", "0 met normal - | 10 met unacknowledged ! | 20 critical unacknowledged ! | 30 met unacknowledged - | 40 critical unacknowledged - | 55 met unacknowledged - | 70 critical unacknowledged -")]
    [InlineData("C with a lower priority is told and stays C", "0 critical normal - | 10 critical unacknowledged ! | 12 ack acknowledged | 20 met acknowledged - | 39 met acknowledged - | 40 met acknowledged !")]
    [InlineData("B to H to B in turns is told once per reminder", "0 met normal - | 10 met unacknowledged ! | 11 met-off suppressed | 12 met unacknowledged | 20 met-off suppressed | 30 met unacknowledged | 309 met unacknowledged - | 310 met unacknowledged !")]
    [InlineData("unknown keeps B", "0 met normal - | 10 met unacknowledged ! | 11 unknown unacknowledged - | 250 unknown unacknowledged -")]
    [InlineData("unknown keeps C", "0 met normal - | 10 met unacknowledged ! | 12 ack acknowledged | 250 unknown acknowledged -")]
    [InlineData("unknown keeps A", "0 unknown normal - | 9000 unknown normal -")]
    [InlineData("nothing to acknowledge", "0 clear normal - | 1 ack normal - | 2 met normal - | 12 met unacknowledged ! | 13 ack acknowledged | 14 ack acknowledged -")]
    [InlineData("A to G to A: shelved and timed out", "0 clear normal - | 1 shelve shelved | 600 clear shelved - | 601 clear normal")]
    [InlineData("B to G to B: shelved and timed out while it stands", "0 met normal - | 10 met unacknowledged ! | 11 shelve shelved | 610 met shelved - | 611 met unacknowledged !")]
    [InlineData("C to G to B: unshelved while it stands", "0 met normal - | 10 met unacknowledged ! | 11 ack acknowledged | 12 shelve shelved | 30 unshelve unacknowledged !")]
    [InlineData("G to A: unshelved after it has gone", "0 met normal - | 10 met unacknowledged ! | 11 shelve shelved | 12 clear shelved - | 32 clear shelved - | 40 unshelve normal")]
    [InlineData("the condition is followed on the shelf", "0 shelve shelved | 1 met shelved - | 11 met shelved - | 20 unshelve unacknowledged !")]
    [InlineData("a shelved alarm is not shelved again, acknowledged or told", "0 shelve shelved | 1 shelve shelved - | 2 ack shelved - | 3 met shelved - | 500 met shelved -")]
    [InlineData("A to H to A: suppressed by design", "0 clear normal - | 1 off suppressed | 50 off suppressed - | 51 clear normal")]
    [InlineData("B to H to B: suppressed and released while it stands", "0 met normal - | 10 met unacknowledged ! | 11 met-off suppressed | 60 met-off suppressed - | 61 met unacknowledged")]
    [InlineData("A to H to B: came up under suppression and is told when released", "0 met-off suppressed | 60 met-off suppressed - | 61 met unacknowledged !")]
    [InlineData("D to H to A", "0 met normal - | 10 met unacknowledged ! | 11 clear unacknowledged - | 31 clear returned-unacknowledged ! | 40 off suppressed | 41 clear normal")]
    [InlineData("H is not shelved", "0 off suppressed | 1 shelve suppressed -")]
    [InlineData("G to H when the shelf ends under suppression", "0 shelve shelved | 1 off shelved - | 600 off suppressed | 601 clear normal")]
    [InlineData("B to I to B: out of service and back", "0 met normal - | 10 met unacknowledged ! | 11 remove out-of-service | 5000 met out-of-service - | 5001 return unacknowledged !")]
    [InlineData("A to I to A", "0 clear normal - | 1 remove out-of-service | 2 remove out-of-service - | 90000 clear out-of-service - | 90001 return normal | 90002 return normal -")]
    [InlineData("G to I", "0 shelve shelved | 1 remove out-of-service | 700 clear out-of-service -")]
    public void Follows_the_table(string name, string rows) => Follow(latch: false, name, rows);

    [Theory]
    [InlineData("B to E: gone unseen", "0 met normal - | 10 met unacknowledged ! | 11 clear unacknowledged - | 31 clear latched !")]
    [InlineData("C to F: gone", "0 met normal - | 10 met unacknowledged ! | 12 ack acknowledged | 20 clear acknowledged - | 40 clear latched !")]
    [InlineData("E to F to A: acknowledged, then reset", "0 met normal - | 10 met unacknowledged ! | 11 clear unacknowledged - | 31 clear latched ! | 32 reset latched - | 33 ack latched | 34 ack latched - | 35 reset normal")]
    [InlineData("E to B: met again", "0 met normal - | 10 met unacknowledged ! | 11 clear unacknowledged - | 31 clear latched ! | 40 met latched - | 50 met unacknowledged !")]
    [InlineData("F to B: met again", "0 met normal - | 10 met unacknowledged ! | 12 ack acknowledged | 20 clear acknowledged - | 40 clear latched ! | 50 met latched - | 60 met unacknowledged !")]
    [InlineData("F is shelved", "0 met normal - | 10 met unacknowledged ! | 12 ack acknowledged | 20 clear acknowledged - | 40 clear latched ! | 50 shelve shelved")]
    [InlineData("reset ends nothing that stands", "0 met normal - | 10 met unacknowledged ! | 11 reset unacknowledged - | 12 ack acknowledged | 13 reset acknowledged -")]
    public void Follows_the_table_when_latching(string name, string rows) => Follow(latch: true, name, rows);

    [Theory]
    [InlineData(AlarmState.Unacknowledged, "0 unknown unacknowledged - | 299 unknown unacknowledged - | 300 unknown unacknowledged !")]
    [InlineData(AlarmState.Unacknowledged, "0 clear unacknowledged - | 19 clear unacknowledged - | 20 clear returned-unacknowledged !")]
    [InlineData(AlarmState.Acknowledged, "0 met acknowledged - | 899 met acknowledged - | 900 met unacknowledged !")]
    [InlineData(AlarmState.ReturnedUnacknowledged, "0 clear returned-unacknowledged - | 1 ack normal")]
    [InlineData(AlarmState.Latched, "0 clear latched - | 1 reset latched - | 2 ack latched | 3 reset normal")]
    [InlineData(AlarmState.Shelved, "0 clear shelved - | 59 clear shelved - | 60 clear normal")]
    [InlineData(AlarmState.OutOfService, "0 met out-of-service - | 900 met out-of-service - | 901 return unacknowledged !")]
    [InlineData(AlarmState.Suppressed, "0 unknown suppressed - | 60 unknown suppressed - | 61 clear normal")]
    [InlineData(AlarmState.Suppressed, "0 off suppressed - | 1 clear normal")]
    [InlineData(AlarmState.Suppressed, "0 met-off suppressed - | 10 met-off suppressed - | 11 met unacknowledged !")]
    [InlineData(AlarmState.Suppressed, "0 met-off suppressed - | 30 met-off suppressed - | 31 clear normal | 32 clear normal -")]
    public void Goes_on_after_a_restart_where_it_was(AlarmState state, string rows)
    {
        var lifecycle = new AlarmLifecycle(LifecycleScript.Settings(latch: false));
        lifecycle.Restore(LifecycleScript.Kept(state, stands: false), TimeSpan.FromSeconds(60), TimeSpan.Zero, TimeSpan.Zero);
        Assert.Equal(state, lifecycle.State);
        LifecycleScript.Run(lifecycle, state.ToString(), rows);
    }

    [Theory]
    [InlineData(AlarmState.Shelved, "0 unknown shelved - | 60 unknown unacknowledged !")]
    [InlineData(AlarmState.Shelved, "0 met shelved - | 60 met unacknowledged !")]
    [InlineData(AlarmState.Shelved, "0 clear shelved - | 60 clear normal")]
    [InlineData(AlarmState.OutOfService, "0 unknown out-of-service - | 1 return unacknowledged !")]
    [InlineData(AlarmState.Suppressed, "0 unknown suppressed - | 1 met unacknowledged !")]
    public void What_stood_when_it_was_set_aside_is_not_forgotten_over_a_restart(AlarmState state, string rows)
    {
        var lifecycle = new AlarmLifecycle(LifecycleScript.Settings(latch: false));
        lifecycle.Restore(LifecycleScript.Kept(state, stands: true), TimeSpan.FromSeconds(60), TimeSpan.Zero, TimeSpan.Zero);
        LifecycleScript.Run(lifecycle, state.ToString(), rows);
    }

    [Fact]
    public void The_time_since_the_acknowledgement_goes_on_over_a_restart()
    {
        var lifecycle = new AlarmLifecycle(LifecycleScript.Settings(latch: false));
        lifecycle.Restore(LifecycleScript.Kept(AlarmState.Acknowledged, stands: true), TimeSpan.Zero, TimeSpan.FromSeconds(890), TimeSpan.Zero);
        LifecycleScript.Run(lifecycle, "restarted", "9 met acknowledged - | 10 met unacknowledged !");
    }

    private static void Follow(bool latch, string name, string rows) =>
        LifecycleScript.Run(new AlarmLifecycle(LifecycleScript.Settings(latch)), name, rows);
}
