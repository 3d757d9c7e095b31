using VatWatch.Vats.Configuration;

namespace VatWatch.Tests.Vats.Configuration;

public sealed class TypedTests
{
    [Theory]
    [InlineData("113 F", "113 °F")]
    [InlineData("113f", "113 °F")]
    [InlineData("45 degrees Celsius", "45 °C")]
    [InlineData("45 °C", "45 °C")]
    [InlineData("20,5 g", "20.5 g")]
    [InlineData("0,125 kg", "0.125 kg")]
    [InlineData("2 litres", "2 L")]
    [InlineData("40 US gallons", "40 gal")]
    [InlineData("-640mv", "-640 mV")]
    [InlineData("88 percent", "88 %")]
    [InlineData("12 sec", "12 s")]
    [InlineData(" 9,8 ", "9.8")]
    [InlineData("1,500 g", "1,500 g")]
    [InlineData("much", "much")]
    [InlineData("", "")]
    public void A_quantity_is_spelt_as_the_configuration_does(string typed, string quantity) => Assert.Equal(quantity, Typed.Quantity(typed));

    [Theory]
    [InlineData("113 F", 45)]
    [InlineData("45 c", 45)]
    public void What_comes_out_is_read_as_a_temperature(string typed, double celsius)
    {
        Assert.True(QuantityKind.Temperature.TryParse(Typed.Quantity(typed), out var read));
        Assert.Equal(celsius, read, 1e-9);
    }

    [Theory]
    [InlineData("9,8", true, 9.8)]
    [InlineData("-2.5", true, -2.5)]
    [InlineData(".5", true, 0.5)]
    [InlineData("1,500", false, 0)]
    [InlineData("NaN", false, 0)]
    [InlineData("9 pH", false, 0)]
    [InlineData("", false, 0)]
    public void A_number_has_a_point_or_a_comma(string typed, bool isNumber, double number)
    {
        Assert.Equal(isNumber, Typed.TryNumber(typed, out var read));
        if (isNumber)
        {
            Assert.Equal(number, read);
        }
    }

    [Theory]
    [InlineData("wool", Fibre.Protein)]
    [InlineData("Silk", Fibre.Protein)]
    [InlineData(" cotton ", Fibre.Cellulose)]
    [InlineData("linen", Fibre.Cellulose)]
    [InlineData("protein", Fibre.Protein)]
    [InlineData("felt", null)]
    [InlineData(null, null)]
    public void A_fibre_is_known_by_its_goods(string? word, Fibre? fibre) => Assert.Equal(fibre, Typed.FibreOf(word));
}
