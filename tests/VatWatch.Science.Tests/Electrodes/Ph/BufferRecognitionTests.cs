using VatWatch.Science.Electrodes;
using VatWatch.Science.Electrodes.Ph;

namespace VatWatch.Science.Tests.Electrodes.Ph;

// No outside source: buffers are recognised from voltages that electrodes of known slope and offset give in them.
public sealed class BufferRecognitionTests
{
    public static TheoryData<double, double, double> UsableElectrodes => new MatrixOf(
        slopesPercent: [92, 98, 102], offsetsMillivolts: [-20, 0, 20], temperaturesC: [5, 20, 25, 45]).Cases;

    [Theory]
    [MemberData(nameof(UsableElectrodes))]
    public void A_usable_electrode_tells_the_technical_buffers_apart(double slopePercent, double offset, double temperatureC)
    {
        var electrode = new PhLine(slopePercent / 100 * Nernst.SlopeMillivoltsPerPh(25), offset, 25);
        Assert.All(PhBuffers.TechnicalSet, buffer =>
        {
            var millivolts = electrode.MillivoltsAt(buffer.PhAt(temperatureC).Value, temperatureC);
            Assert.True(BufferRecognition.TryRecognise(
                millivolts, temperatureC, PhBuffers.TechnicalSet, PhLine.Ideal(25), out var found));
            Assert.Same(buffer, found);
        });
    }

    [Fact]
    public void Two_buffers_alike_are_not_guessed_between()
        => Assert.False(BufferRecognition.TryRecognise(4, 25, PhBuffers.PrimarySet, PhLine.Ideal(25), out _));

    [Theory]
    [InlineData(-88)]
    [InlineData(-290)]
    public void A_reading_between_or_beyond_the_buffers_is_none_of_them(double millivolts)
    {
        Assert.False(BufferRecognition.TryRecognise(millivolts, 25, PhBuffers.TechnicalSet, PhLine.Ideal(25), out var found));
        Assert.Null(found);
    }

    [Fact]
    public void No_candidates_no_answer()
        => Assert.False(BufferRecognition.TryRecognise(0, 25, [], PhLine.Ideal(25), out _));

    private sealed class MatrixOf(double[] slopesPercent, double[] offsetsMillivolts, double[] temperaturesC)
    {
        public TheoryData<double, double, double> Cases
        {
            get
            {
                var cases = new TheoryData<double, double, double>();
                foreach (var slope in slopesPercent)
                    foreach (var offset in offsetsMillivolts)
                        foreach (var temperature in temperaturesC)
                            cases.Add(slope, offset, temperature);

                return cases;
            }
        }
    }
}
