using System.Text;
using VatWatch.Calibration;
using VatWatch.Science.Electrodes;
using VatWatch.Science.Electrodes.Ph;

namespace VatWatch.Tests.Calibration;

public sealed class CalibrationDocumentTests
{
    private const string Example =
        """
        {"version":1,"kind":"ph","fit":"line","slopeMillivoltsPerPh":58.1395,"offsetMillivolts":5,"temperatureC":25,"extrapolated":false,"points":[
          {"buffer":"technical 7.00","ph":7,"millivolts":5,"temperatureC":25,"extrapolated":false},
          {"buffer":"technical 10.01","ph":10.01,"millivolts":-170,"temperatureC":25,"extrapolated":false}]}
        """;

    [Theory]
    [InlineData(PhFitKind.Line)]
    [InlineData(PhFitKind.Pieces)]
    public void A_pH_calibration_comes_back_as_it_was(PhFitKind fit)
    {
        var made = PhCalibration.Through(
            [
                PhCalibrationPoint.In(PhBuffers.Technical400, 178.0, 24, TimeSpan.FromSeconds(12)),
                PhCalibrationPoint.In(PhBuffers.Technical700, 5.0, 25),
                PhCalibrationPoint.In(PhBuffers.Technical1001, -170.0, 55, TimeSpan.FromSeconds(31)),
            ],
            fit,
            null);
        Assert.True(CalibrationDocument.TryRead(CalibrationDocument.Write(made), out var read, out _));
        var again = Assert.IsType<PhCalibration>(read);
        Assert.Equal(made.Line, again.Line);
        Assert.Equal(made.Points, again.Points);
        Assert.Equal(made.Lines, again.Lines);
        Assert.True(again.Points[2].Extrapolated);
        Assert.Equal(TimeSpan.FromSeconds(31), again.Settling);
    }

    [Fact]
    public void An_ORP_calibration_comes_back_as_it_was()
    {
        var made = OrpCalibration.In(CheckSolution.Light, ReferenceElectrode.SilverChloride3M, 461.5, 30, TimeSpan.FromSeconds(45));
        Assert.True(CalibrationDocument.TryRead(CalibrationDocument.Write(made), out var read, out _));
        Assert.Equal(made, read);
    }

    [Fact]
    public void The_example_of_FORMAT_md_is_read()
    {
        Assert.True(CalibrationDocument.TryRead(Example, out var read, out _));
        Assert.Equal(58.1395, Assert.IsType<PhCalibration>(read).Line.SlopeMillivoltsPerPh);
    }

    [Theory]
    [InlineData("", "not the JSON")]
    [InlineData("null", "empty")]
    [InlineData("{}", "version 0")]
    [InlineData("""{"version":2,"kind":"ph"}""", "version 2; wanted 1")]
    [InlineData("""{"version":1,"kind":"redox"}""", "kind is 'redox'")]
    [InlineData("""{"version":1,"kind":"ph"}""", "missing")]
    [InlineData("""{"version":1,"kind":"ph","slopeMillivoltsPerPh":-3,"offsetMillivolts":0,"temperatureC":25,"points":[{"buffer":"a","ph":7,"millivolts":0,"temperatureC":25,"extrapolated":false}]}""", "-3 mV")]
    [InlineData("""{"version":1,"kind":"orp","offsetMillivolts":7}""", "missing")]
    public void What_is_not_understood_is_left_out_with_a_reason(string json, string reason)
    {
        Assert.False(CalibrationDocument.TryRead(json, out _, out var whyNot));
        Assert.Contains(reason, whyNot, StringComparison.Ordinal);
    }

    [Fact]
    public void Random_damage_never_throws()
    {
        var random = new Random(4711);
        for (var round = 0; round < 2000; round++)
        {
            var bytes = Encoding.UTF8.GetBytes(Example);
            for (var hit = 0; hit < 1 + (round % 4); hit++)
            {
                bytes[random.Next(bytes.Length)] = (byte)random.Next(32, 127);
            }

            Assert.True(CalibrationDocument.TryRead(Encoding.UTF8.GetString(bytes), out var read, out var whyNot) ? read is not null : whyNot is not null);
        }
    }
}
