using VatWatch.Conditions.Heating.Learning;
using VatWatch.Conditions.Heating;

namespace VatWatch.Tests.Conditions.Heating;

/// <summary>Case D of the heat-balance reference: 125 L, 535,226 J/K, 3.15 W/K, 1440 W, room 20 °C.</summary>
public sealed class HeatOutlookTests
{
    private const double CapacityJPerK = 535_226;
    private const double Heating = 1440 / CapacityJPerK * 3600;
    private const double Loss = 3.15 / CapacityJPerK * 3600;

    [Fact]
    public void The_time_to_a_temperature_is_that_of_the_reference_vector()
    {
        // Heat-balance reference, section 12: 18 to 46 °C takes 10,691.25 s.
        var forecast = Outlook(18, on: true).TimeTo(46).Forecast;
        Assert.NotNull(forecast);
        Assert.Equal(10_691.25, forecast.Middle.TotalSeconds, 1.0);
        Assert.True(forecast.Early < forecast.Middle && forecast.Middle < forecast.Late);
    }

    [Fact]
    public void The_band_is_that_of_the_propagated_deviations()
    {
        // Heat-balance reference, section 9: heating 2 % gives 3.7 min. What the model leaves out comes to it: mains 2 % and the model's 1.3 % of 178 min, and the losses.
        var exact = Width(0);
        Assert.Equal(1.5 * 178 * Math.Sqrt(0.02 * 0.02 + 0.013 * 0.013), exact, 3.0);
        Assert.Equal(1.5 * 3.7, Math.Sqrt(Math.Pow(Width(0.02), 2) - exact * exact), 1.0);

        static double Width(double share)
        {
            var forecast = Outlook(18, on: true, heatingSigma: share * Heating).TimeTo(46).Forecast!;
            return (forecast.Middle - forecast.Early).TotalMinutes;
        }
    }

    [Fact]
    public void Beyond_the_plateau_there_is_no_time_but_a_reason()
    {
        var answer = Outlook(40, on: true, lossFactor: 18).TimeTo(60);
        Assert.Null(answer.Forecast);
        Assert.Contains("levels off at about", answer.WhyNot, StringComparison.Ordinal);
    }

    [Fact]
    public void Switching_off_when_told_lets_it_coast_to_the_target()
    {
        var off = Outlook(40, on: true).SwitchOff(45, TimeSpan.FromHours(6), neverAboveC: 60).Forecast;
        Assert.NotNull(off);
        var vat = new VatWatch.Science.Heat.Model.FirstOrderVat(1440, 3.15, CapacityJPerK, 20);
        var cool = new VatWatch.Science.Heat.Model.FirstOrderVat(0, 3.15, CapacityJPerK, 20);
        var topC = vat.TemperatureAfter(40, off.Middle.TotalSeconds);
        Assert.Equal(45, cool.TemperatureAfter(topC, (TimeSpan.FromHours(6) - off.Middle).TotalSeconds), 0.02);
        Assert.NotNull(Outlook(20, on: true).SwitchOff(60, TimeSpan.FromHours(1), neverAboveC: 70).WhyNot);
        Assert.Contains("above 48.0 °C first", Outlook(40, on: true).SwitchOff(45, TimeSpan.FromHours(18), neverAboveC: 48).WhyNot, StringComparison.Ordinal);
    }

    [Fact]
    public void Power_and_loss_are_told_in_watts()
    {
        var outlook = Outlook(30, on: true);
        Assert.Equal(1440, outlook.HeaterPower.Watts, 0.1);
        Assert.Equal(3.15, outlook.Loss.WattsPerKelvin, 0.001);

        // Heat-balance reference, worked example 3: T_inf 476.9 °C with 3.152 W/K.
        Assert.Equal(20 + 1440 / 3.15, outlook.PlateauC, 0.1);
    }

    [Fact]
    public void The_path_ahead_passes_a_temperature_when_the_forecast_says()
    {
        var outlook = Outlook(18, on: true, heatingSigma: 0.02 * Heating);
        var forecast = outlook.TimeTo(46).Forecast!;
        var path = outlook.Path(TimeSpan.FromHours(4), 480);

        Assert.Equal(forecast.Middle.TotalMinutes, Crossing(path, point => point.MiddleC), 1.0);

        // The two go different ways to the same band (time and temperature); heat-balance reference, section 9, for the deviations themselves.
        Assert.Equal(forecast.Early.TotalMinutes, Crossing(path, point => point.HighC), 4.0);
        Assert.Equal(forecast.Late!.Value.TotalMinutes, Crossing(path, point => point.LowC), 4.0);

        static double Crossing(IReadOnlyList<HeatPathPoint> path, Func<HeatPathPoint, double> edge) => path.First(point => edge(point) >= 46).After.TotalMinutes;
    }

    [Fact]
    public void The_path_of_a_cooling_vat_is_that_of_the_cooling()
    {
        // Heat-balance reference, worked example 4: 46 °C after 12 h in a room of 20 °C is 40.2 °C.
        var path = Outlook(46, on: false).Path(TimeSpan.FromHours(12), 6);
        Assert.All(path, point => Assert.Equal(20 + 26 * Math.Exp(-Loss * point.After.TotalHours), point.MiddleC, 1e-9));
        Assert.Equal(40.2, path[^1].MiddleC, 0.1);
    }

    [Fact]
    public void The_path_ends_where_a_known_thermostat_acts()
    {
        var path = Outlook(40, on: true, thermostatOffC: 44).Path(TimeSpan.FromHours(6), 360);
        Assert.Equal(44, path[^1].MiddleC, 0.2);
    }

    internal static HeatOutlook Outlook(double liquorC, bool on, double heatingSigma = 0, double lossFactor = 1, double? thermostatOffC = null)
    {
        var estimate = new HeatEstimate
        {
            HeatingKPerHour = Heating,
            HeatingVariance = heatingSigma * heatingSigma,
            LossPerHour = Loss * lossFactor,
            LossVariance = 0,
            HeatingLossCovariance = 0,
            ReferenceC = 20,
            CapacityJPerK = CapacityJPerK,
            Windows = 100,
            EarlierNights = 0,
        };
        return new HeatOutlook(estimate, liquorC, on, estimate.Rate(liquorC, heaterOn: true), DisplayUnits.Si, thermostatOffC);
    }
}
