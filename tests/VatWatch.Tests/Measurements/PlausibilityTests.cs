using VatWatch.Alarms.Rules;
using VatWatch.Calibration;
using VatWatch.Measurements;
using VatWatch.Pipeline;
using VatWatch.Pipeline.Configuration;
using VatWatch.Testing;
using VatWatch.Tests.Calibration;

namespace VatWatch.Tests.Measurements;

/// <summary>Limits are engineering choices except those of contact: +400 mV vs Ag/AgCl 3 M KCl, and the hydrogen line (-59.16 mV per pH at 25 °C).</summary>
public sealed class PlausibilityTests
{
    private static readonly ProbeDefinition FinishedOrp = SampleVats.Probe("madder-lane", "redox", Quantity.Orp);

    [Fact]
    public void A_temperature_that_jumps_is_in_doubt_until_the_next_reading_confirms_it() => Assert.Equal(
        "good good suspect good good",
        Qualities(Electrodes.Liquor, 45.0, 45.1, 48.0, 48.1, 48.0));

    [Fact]
    public void A_single_outlier_is_in_doubt_and_the_return_from_it_is_not() => Assert.Equal(
        "good suspect good good",
        Qualities(Electrodes.Liquor, 45.0, 85.0, 45.1, 45.1));

    [Fact]
    public void A_temperature_that_runs_on_in_one_direction_is_believed_after_one_reading() => Assert.Equal(
        "good suspect good suspect good",
        Qualities(Electrodes.Liquor, 45, 50, 55, 60, 65));

    [Fact]
    public void A_coarse_probe_read_each_second_may_step_and_a_fast_heater_may_heat() => Assert.Equal(
        "good good good good",
        Qualities(Electrodes.Liquor, 45.0, 45.5, 45.0, 45.3));

    [Fact]
    public void The_doubt_names_both_values()
    {
        var made = Make(Electrodes.Liquor, [45.0, 85.0]);
        Assert.Equal("moved from 45.0 to 85.0 °C, faster than 5 K/min; waits for the next reading", made[1].Reason);
        Assert.Equal(85.0, made[1].Value);
    }

    [Fact]
    public void An_overheating_value_is_never_held_back_from_the_alarm()
    {
        var watcher = new VatWatcher(new VatPlan(Electrodes.Vat, [], AlarmSettings.Default), DisplayUnits.Si);
        double? alarmedAt = null;
        for (var second = 0; second <= 60 && alarmedAt is null; second += 5)
        {
            // Every value jumps by more than the check allows, up and down, so that none is ever confirmed.
            var (_, changes) = watcher.Accept(Electrodes.Reading(Electrodes.Liquor, second < 20 ? 45 : second % 10 == 0 ? 60 : 90, second));
            alarmedAt = changes.Concat(watcher.Tick(Electrodes.At(second)).Changes).Any(change => change.Status.Alarm.Value == "overheat") ? second : null;
        }

        Assert.InRange(alarmedAt!.Value, 25, 35); // on-delay 10 s
    }

    [Theory]
    [InlineData("good good suspect good", -700.0, -705.0, -600.0, -706.0)]
    [InlineData("good suspect good good", -700.0, -600.0, -602.0, -640.0)]
    public void A_spark_in_the_ORP_is_in_doubt_and_a_step_only_once(string qualities, params double[] values) =>
        Assert.Equal(qualities, Qualities(FinishedOrp, values));

    [Theory]
    [InlineData(410, "in air")]
    [InlineData(-1195, "below the hydrogen line")]
    public void An_ORP_electrode_without_contact_is_a_fault(double millivolts, string words)
    {
        // Hydrogen line at pH 14 and 25 °C: -828 mV vs SHE = -1035 mV vs Ag/AgCl 3 M KCl (207 mV); less 150 mV is -1185 mV.
        var made = Make(FinishedOrp, [millivolts], liquorC: 25)[0];
        Assert.Equal((Quality.Fault, null), (made.Quality, made.Value));
        Assert.Contains(words, made.Reason, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(390)]
    [InlineData(-1175)]
    public void Short_of_those_limits_it_is_not(double millivolts) => Assert.Equal(Quality.Good, Make(FinishedOrp, [millivolts], liquorC: 25)[0].Quality);

    [Fact]
    public void A_glass_electrode_at_the_rail_is_a_fault_that_says_so()
    {
        var made = Make(Electrodes.Ph, [-2048.0], liquorC: 45)[0];
        Assert.Equal(Quality.Fault, made.Quality);
        Assert.StartsWith("gives −2048 mV, more than any glass electrode", made.Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void A_value_that_used_to_move_is_in_doubt_after_a_quarter_of_an_hour_of_sameness_and_again_good_when_it_moves()
    {
        var moving = Enumerable.Range(0, 60).Select(round => 45 + (round % 3) * 0.02);
        var made = Make(Electrodes.Liquor, [.. moving, .. Enumerable.Repeat(45.3, 200), 45.36]);
        Assert.All(made.Take(60 + 180), one => Assert.Equal(Quality.Good, one.Quality));
        Assert.Equal(Quality.Suspect, made[60 + 190].Quality);
        Assert.Contains("exactly 45.3 °C for longer than 15 min", made[60 + 190].Reason, StringComparison.Ordinal);
        Assert.Equal(Quality.Good, made[^1].Quality);
    }

    private static string Qualities(ProbeDefinition probe, params double[] values) =>
        string.Join(' ', Make(probe, values).Select(one => one.Quality.ToString().ToLowerInvariant()));

    /// <summary>One reading each 5 s.</summary>
    private static List<Measurement> Make(ProbeDefinition probe, IReadOnlyList<double> values, double? liquorC = null)
    {
        var calibrator = new Calibrator(Electrodes.Vat);
        if (liquorC is { } known)
        {
            calibrator.TakeTemperature(Electrodes.Liquor.Id, known, Electrodes.At(0));
        }

        var maker = new MeasurementMaker(probe, calibrator);
        return [.. values.Select((value, index) => maker.Make(Electrodes.Reading(probe, value, 5 * index)))];
    }
}
