using VatWatch.Daemon.Web.Pages;

namespace VatWatch.Daemon.Tests.Web.Pages;

/// <summary>Times to a second-degree burn: Moritz and Henriques 1947 (Am. J. Pathol. 23, 695), as reproduced in a water-safety table.</summary>
public sealed class ScaldCautionTests
{
    [Theory]
    [InlineData(43.0, "painful on skin")]
    [InlineData(45.0, "an hour or two")]
    [InlineData(47.0, "15 to 20 minutes")]
    [InlineData(49.0, "5 to 10 minutes")]
    [InlineData(51.0, "2 minutes")]
    [InlineData(55.0, "20 seconds")]
    [InlineData(60.0, "3 seconds")]
    [InlineData(95.0, "3 seconds")]
    public void The_caution_names_the_time_to_a_burn(double celsius, string words) => Assert.Contains(words, ScaldCaution.For(celsius, DisplayUnits.Si), StringComparison.Ordinal);

    [Theory]
    [InlineData(null)]
    [InlineData(42.9)]
    public void Below_43_there_is_none(double? celsius) => Assert.Null(ScaldCaution.For(celsius, DisplayUnits.Si));
}
