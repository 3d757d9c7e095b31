using VatWatch.Daemon.Web.Vats;

namespace VatWatch.Daemon.Tests.Web.Vats;

/// <summary>Times to a second-degree burn: Moritz and Henriques 1947 (Am. J. Pathol. 23, 695), as reproduced in a water-safety table.</summary>
public sealed class ScaldCautionTests
{
    [Theory]
    [InlineData(43.0, "painful on skin")]
    [InlineData(45.0, "in about 2 hours")]
    [InlineData(47.0, "in about 20 minutes")]
    [InlineData(49.0, "in about 8 minutes")]
    [InlineData(51.0, "in about 2 minutes")]
    [InlineData(54.9, "in about 17 seconds")]
    [InlineData(59.9, "in about 3 seconds")]
    [InlineData(66.0, "in about 1 second,")]
    [InlineData(95.0, "at once")]
    [InlineData(101.5, "at once")]
    public void The_caution_names_the_time_to_a_burn(double celsius, string words) => Assert.Contains(words, ScaldCaution.For(celsius, DisplayUnits.Si), StringComparison.Ordinal);

    [Theory]
    [InlineData(null)]
    [InlineData(42.9)]
    public void Below_43_there_is_none(double? celsius) => Assert.Null(ScaldCaution.For(celsius, DisplayUnits.Si));
}
