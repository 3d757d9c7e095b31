using MathNet.Numerics.OdeSolvers;
using VatWatch.Science.Heat.Model;

namespace VatWatch.Science.Tests.Heat.Model;

public class VatHeatModelTests
{
    // Hours from 18 to 46 °C at 1000, 1440 and 1500 W, then °C after 8 and 12 h off from 46 °C; room 20 °C, 50 %: a separate program (Python).
    public static TheoryData<string, double, double, double, double, double> Cases => new()
    {
        { "bare, open", 5.33, 3.39, 3.23, 31.0, 27.2 },
        { "bare, lid", 4.79, 3.17, 3.03, 35.0, 31.4 },
        { "wrap, open", 4.77, 3.17, 3.03, 35.2, 31.8 },
        { "wrap, lid", 4.33, 2.97, 2.85, 41.9, 40.2 },
        { "foam 25", 4.25, 2.93, 2.82, 43.8, 42.8 },
        { "foam 50", 4.21, 2.92, 2.80, 44.8, 44.2 },
    };

    [Theory]
    [MemberData(nameof(Cases))]
    public void Warming_and_cooling_agree_with_an_independent_program(
        string name, double hoursAt1000, double hoursAt1440, double hoursAt1500, double after8, double after12)
    {
        Assert.Equal(hoursAt1000, SecondsTo(name, 1000, 18, 46) / 3600, 0.01 * hoursAt1000);
        Assert.Equal(hoursAt1440, SecondsTo(name, 1440, 18, 46) / 3600, 0.01 * hoursAt1440);
        Assert.Equal(hoursAt1500, SecondsTo(name, 1500, 18, 46) / 3600, 0.01 * hoursAt1500);
        Assert.Equal(after8, Run(name, 0, 46, 8 * 3600).TemperatureC, 0.3);
        Assert.Equal(after12, Run(name, 0, 46, 12 * 3600).TemperatureC, 0.3);
    }

    // Minutes after 46 °C with a heater stuck on at 1440 W, reflective wrap and lid: the same program.
    [Theory]
    [InlineData(49, 20)]
    [InlineData(50, 26)]
    [InlineData(52, 40)]
    [InlineData(55, 60)]
    [InlineData(60, 93)]
    [InlineData(65, 128)]
    public void A_stuck_heater_reaches_each_limit_when_computed(double limitC, double minutes) =>
        Assert.Equal(minutes, SecondsTo("wrap, lid", 1440, 46, limitC) / 60, 1.0);

    // 2.6, 2.1, 1.9 and 1.5 h from 46 to 60 °C; the open vats then level off near 74 and 81 °C; the same program.
    [Fact]
    public void Open_vats_level_off_and_closed_ones_do_not()
    {
        Assert.Equal(2.6, SecondsTo("bare, open", 1440, 46, 60) / 3600, 0.06);
        Assert.Equal(2.1, SecondsTo("wrap, open", 1440, 46, 60) / 3600, 0.06);
        Assert.Equal(1.9, SecondsTo("bare, lid", 1440, 46, 60) / 3600, 0.06);
        Assert.Equal(1.5, SecondsTo("foam 50", 1440, 46, 60) / 3600, 0.06);
        Assert.Equal(74, Run("bare, open", 1440, 46, 14 * 3600).TemperatureC, 1.5);
        Assert.Equal(81, Run("wrap, open", 1440, 46, 14 * 3600).TemperatureC, 1.5);
        Assert.Equal(6, SecondsTo("foam 25", 1440, 46, 99.9) / 3600, 0.6);
    }

    // Latent heat alone: 1440 W boil off 2.3 kg/h, 12 mm/h in this vat, less what the lidded wall still loses.
    [Fact]
    public void A_boiling_vat_stays_at_100_C_and_loses_its_level()
    {
        var model = HeatCases.Model("foam 50");
        var boiling = model.Step(HeatCases.Filled(100), Inputs("foam 50", 1440), 3600);
        Assert.Equal(100, boiling.TemperatureC, 0.05);
        var lostKg = HeatCases.Filled(100).WaterKg - boiling.WaterKg;
        Assert.Equal((1440 - 0.902 * 80) * 3.6 / 2256.5, lostKg, 0.02);
        Assert.Equal(12, 1000 * (model.Geometry(HeatCases.Filled(100)).DepthM - model.Geometry(boiling).DepthM), 1.0);
    }

    // Open at 46 °C: 0.24 kg/h, 1.26 mm/h; the same program.
    [Fact]
    public void An_open_vat_held_warm_loses_level()
    {
        var start = HeatCases.Filled(46);
        var model = HeatCases.Model("bare, open");
        var end = model.Step(start, Inputs("bare, open", 450), 3600);
        Assert.Equal(46, end.TemperatureC, 0.1);
        Assert.Equal(0.244, start.WaterKg - end.WaterKg, 0.003);
        Assert.Equal(1.26, 1000 * (model.Geometry(start).DepthM - model.Geometry(end).DepthM), 0.05);
    }

    [Fact]
    public void Steps_agree_with_a_Runge_Kutta_integration_of_the_balance()
    {
        const string name = "bare, open";
        var model = HeatCases.Model(name);
        var start = HeatCases.Filled(20);
        var insulation = HeatCases.Of(name).Insulation;
        var path = RungeKutta.FourthOrder(20, 0, 4 * 3600, 1441, (_, t) =>
        {
            var state = new VatHeatState(t, start.WaterKg);
            var geometry = model.Geometry(state);
            var loss = insulation.LossWPerK(geometry, Lid.Off) * (t - 20)
                + EffectiveLoss.EvaporationW(geometry.SurfaceM2, t, 20, 0.5, Lid.Off);
            return (1440 - loss) / model.CapacityJPerK(state);
        });

        // The integration keeps the water that the model loses, half a kilogram in four hours.
        Assert.Equal(path[^1], model.Step(start, Inputs(name, 1440), 4 * 3600).TemperatureC, 0.06);
    }

    [Fact]
    public void Many_short_steps_are_as_good_as_one_long()
    {
        var model = HeatCases.Model("wrap, open");
        var one = model.Step(HeatCases.Filled(30), Inputs("wrap, open", 1000), 3600);
        var many = HeatCases.Filled(30);
        for (var i = 0; i < 3600; i++)
            many = model.Step(many, Inputs("wrap, open", 1000), 1);
        Assert.Equal(one.TemperatureC, many.TemperatureC, 0.001);
        Assert.Equal(one.WaterKg, many.WaterKg, 1e-4);
    }

    [Fact]
    public void Cold_yarn_and_a_top_up_act_at_once()
    {
        var model = HeatCases.Model("wrap, lid");
        var state = HeatCases.Filled(46);
        Assert.Equal(46 - 0.72, model.AddBody(state, VatHeatCapacity.WetYarnJPerK(2, 3, 20), 20).TemperatureC, 0.01);
        var topped = model.AddWater(state, 9.991, 15);
        Assert.Equal(46 - 2.25, topped.TemperatureC, 0.01);
        Assert.Equal(state.WaterKg + 9.991, topped.WaterKg, 1e-12);
    }

    [Fact]
    public void A_nearly_dry_vat_keeps_its_last_kilogram()
    {
        var state = new VatHeatState(99, 1.5);
        var end = HeatCases.Model("bare, open").Step(state, Inputs("bare, open", 3000), 3600);
        Assert.Equal(1, end.WaterKg, 1e-9);
        Assert.InRange(end.TemperatureC, 99, 100);
    }

    [Fact]
    public void Impossible_inputs_are_refused()
    {
        var model = HeatCases.Model("bare, open");
        Assert.Throws<ArgumentOutOfRangeException>(() => model.Step(HeatCases.Filled(46), Inputs("bare, open", -1), 10));
        Assert.Throws<ArgumentOutOfRangeException>(() => model.Step(HeatCases.Filled(46), Inputs("bare, open", 0), double.NaN));
        Assert.Throws<ArgumentOutOfRangeException>(() => model.Step(new(-2, 100), Inputs("bare, open", 0), 10));
        Assert.Throws<ArgumentOutOfRangeException>(() => new VatHeatModel(0, VatInsulation.Bare, 1000));
    }

    private static VatHeatInputs Inputs(string name, double watts) => new(watts, 20, 0.5, HeatCases.Of(name).Lid);

    private static VatHeatState Run(string name, double watts, double startC, double seconds) =>
        HeatCases.Model(name).Step(HeatCases.Filled(startC), Inputs(name, watts), seconds);

    private static double SecondsTo(string name, double watts, double startC, double targetC)
    {
        var model = HeatCases.Model(name);
        var state = HeatCases.Filled(startC);
        var seconds = 0.0;
        for (; state.TemperatureC < targetC && seconds < 24 * 3600; seconds += 10)
            state = model.Step(state, Inputs(name, watts), 10);
        return seconds;
    }
}
