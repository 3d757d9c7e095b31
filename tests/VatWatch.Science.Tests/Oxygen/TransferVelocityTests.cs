using VatWatch.Science.Oxygen;

namespace VatWatch.Science.Tests.Oxygen;

public sealed class TransferVelocityTests
{
    // Bands: proposals of this program. Source beside them: lakes without wind 2.07 cm/h (Cole and Caraco 1998).
    [Fact]
    public void The_open_still_band_brackets_a_lake_without_wind()
    {
        var open = TransferVelocity.Of(SurfaceState.OpenStill);
        Assert.InRange(2.07, open.LowCentimetresPerHour, open.HighCentimetresPerHour);
    }

    [Fact]
    public void More_movement_never_means_less_oxygen()
    {
        var states = Enum.GetValues<SurfaceState>().Select(TransferVelocity.Of).ToArray();
        Assert.All(states.Zip(states.Skip(1)), pair => Assert.True(pair.First.HighCentimetresPerHour <= pair.Second.LowCentimetresPerHour));
    }

    // Source: 1.024 per kelvin (Rao and Kumar), 1.81 from 20 to 45 °C.
    [Fact]
    public void A_warm_surface_is_faster()
        => Assert.Equal(1.81, TransferVelocity.Exactly(1).At(45, knownAtC: 20).HighCentimetresPerHour, 0.005);

    [Fact]
    public void What_cannot_be_is_refused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => new TransferVelocity(-1, 1));
        Assert.Throws<ArgumentOutOfRangeException>(() => new TransferVelocity(2, 1));
        Assert.Throws<ArgumentOutOfRangeException>(() => TransferVelocity.Of((SurfaceState)9));
    }
}
