using VatWatch.Testing;

namespace VatWatch.Tests.Vats;

public sealed class VatDefinitionTests
{
    [Theory]
    [InlineData(5, 60)]
    [InlineData(60, 60)]
    [InlineData(300, 300)]
    public void What_is_followed_by_the_minute_is_followed_by_the_period_of_a_slower_probe(double every, double stretch)
    {
        var vat = SampleVats.MadderLane();
        vat = vat with { Probes = [.. vat.Probes.Select(probe => probe.Quantity == Quantity.Orp ? probe with { Every = TimeSpan.FromSeconds(every) } : probe)] };
        Assert.Contains(vat.Probes, probe => probe.Quantity == Quantity.Orp);
        Assert.Equal(TimeSpan.FromSeconds(stretch), vat.StretchOf(Quantity.Orp));
        Assert.Equal(TimeSpan.FromMinutes(1), (vat with { Probes = [] }).StretchOf(Quantity.Orp));
    }
}
