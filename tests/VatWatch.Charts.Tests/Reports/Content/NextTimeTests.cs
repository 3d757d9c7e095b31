using VatWatch.Charts.Figures;
using VatWatch.Charts.Reports.Content;
using VatWatch.Charts.Traces;

namespace VatWatch.Charts.Tests.Reports.Content;

/// <summary>A table of figures and what follows from them by the rules that <see cref="NextTime"/> names.</summary>
public class NextTimeTests
{
    private static TimeSpan Minutes(double minutes) => TimeSpan.FromMinutes(minutes);

    private static readonly NextTimeFacts Calm = new() { InBand = Minutes(90), Dips = 3 };

    public static TheoryData<string, string> Table { get; } = new(
        ("calm", "Nothing stood out in 1 h 30 min in the band and 3 dips: do the same again."),
        ("nothing", "Nothing stood out; too little was recorded to suggest more."),
        ("59 s over", "Nothing stood out in 1 h 30 min in the band and 3 dips: do the same again."),
        ("over", "The liquor was at or above the limit for 42 min: switch the heater off 35 min earlier, or let a thermostat do it."),
        ("over from the start", "The liquor was at or above the limit for 42 min: let a thermostat switch the heater off."),
        ("oxidised", "The vat stood oxidised for 20 min: look for where air comes in, and sharpen before yarn goes in."),
        ("open", "The vat stood oxidised for 20 min: keep the lid on, and sharpen before yarn goes in."),
        ("cold", "At the first dip the liquor was 2.0 °C below the band: switch the heater on about 20 min earlier."),
        ("cold unknown", "At the first dip the liquor was 2.0 °C below the band: switch the heater on earlier, or dip later."),
        ("slow", "After dip 3 the vat took 24 min to come back, after the first 9 min: sharpen before dip 3."),
        ("a little slow", "Nothing stood out in 1 h 30 min in the band and 3 dips: do the same again."),
        ("lost", "After dip 2 the vat did not come back, after the first 9 min: sharpen before dip 2."),
        ("weak", "At dip 2 the margin of reduction was −12 mV, within its uncertainty of half reduced: wait longer or sharpen before that dip."),
        ("alkali low", "pH ended at 9.40, below the band: add soda ash before the next session (vatwatch dose alkali says how much)."),
        ("alkali high", "pH ended at 10.70, above the band: add no soda ash before the next session."),
        ("alkali falls", "pH fell from 10.20 to 9.80: measure it before the next session, and add soda ash when it nears the low end of the band."),
        ("still on", "Still on at the end: redox-weak. See to it before the next session."));

    private static NextTimeFacts Facts(string name) => name switch
    {
        "calm" => Calm,
        "nothing" => new NextTimeFacts(),
        "59 s over" => Calm with { AboveLimit = TimeSpan.FromSeconds(59), OvershootTime = Minutes(20) },
        "over" => Calm with { AboveLimit = Minutes(42), OvershootTime = Minutes(35) },
        "over from the start" => Calm with { AboveLimit = Minutes(42), OvershootTime = TimeSpan.Zero },
        "oxidised" => Calm with { Oxidised = Minutes(20) },
        "open" => Calm with { Oxidised = Minutes(20), LongOpen = true },
        "cold" => Calm with { FirstDipAboveLowK = -2, ToBandAtFirstDip = Minutes(16) },
        "cold unknown" => Calm with { FirstDipAboveLowK = -2 },
        "slow" => Calm with { Recoveries = [Minutes(9), Minutes(11), Minutes(24)] },
        "a little slow" => Calm with { Recoveries = [Minutes(3), Minutes(6), Minutes(7)] },
        "lost" => Calm with { Recoveries = [Minutes(9), null, Minutes(40)] },
        "weak" => Calm with { WeakestMargin = (-12, 2), MarginUncertainty = 30 },
        "alkali low" => Calm with { Ph = (9.9, 9.4), PhBand = new PhBand(9.5, 10.5) },
        "alkali high" => Calm with { Ph = (10.4, 10.7), PhBand = new PhBand(9.5, 10.5) },
        "alkali falls" => Calm with { Ph = (10.2, 9.8), PhBand = new PhBand(9.5, 10.5) },
        "still on" => Calm with { StillOn = ["redox-weak"] },
        _ => throw new ArgumentException($"no facts of the name '{name}'", nameof(name)),
    };

    [Theory]
    [MemberData(nameof(Table))]
    public void One_sign_gives_its_sentence(string facts, string sentence) => Assert.Equal([sentence], NextTime.Of(Facts(facts), DisplayUnits.Si));

    [Fact]
    public void Of_many_signs_the_three_weightiest_are_told()
    {
        var bad = Facts("over") with { Oxidised = Minutes(20), FirstDipAboveLowK = -1, Recoveries = [Minutes(9), null], Ph = (10.2, 9.2), PhBand = new PhBand(9.5, 10.5) };
        var told = NextTime.Of(bad, DisplayUnits.Si);
        Assert.Equal(3, told.Count);
        Assert.StartsWith("The liquor was at or above the limit", told[0]);
        Assert.StartsWith("The vat stood oxidised", told[1]);
        Assert.StartsWith("At the first dip", told[2]);
    }

    [Fact]
    public void In_us_units_degrees_are_of_fahrenheit() =>
        Assert.StartsWith("At the first dip the liquor was 3.6 °F below the band", NextTime.Of(Facts("cold"), DisplayUnits.Us)[0]);

    [Fact]
    public void The_facts_of_a_session_whose_third_dip_comes_back_slowly_say_so()
    {
        var record = MorningOfDips.Record();
        var traces = ProbeTrace.Of(record);
        var facts = NextTimeReading.Of(record, traces, DipAccounts.Of(record, traces));
        Assert.Equal(3, facts.Recoveries.Count);
        Assert.True(facts.LongOpen);
        Assert.Equal(45 - 37.78, facts.FirstDipAboveLowK!.Value, 0.1);
        Assert.Contains("sharpen before dip 3", NextTime.Of(facts, DisplayUnits.Si)[0]);
    }

    [Fact]
    public void The_overshoot_is_the_time_from_leaving_the_band_to_the_hottest_moment()
    {
        // Band to 47.78 °C, limit 48.89 °C: above the band at 20 min, hottest at 60.
        var record = Logs.Liquor([(0, 45), (10, 47), (20, 48), (40, 50), (60, 51), (80, 49)]);
        var facts = NextTimeReading.Of(record, ProbeTrace.Of(record), []);
        Assert.Equal(Minutes(40), facts.OvershootTime);
    }
}
