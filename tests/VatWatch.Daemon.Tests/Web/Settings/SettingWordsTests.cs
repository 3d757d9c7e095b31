using VatWatch.Daemon.Web.Settings;

namespace VatWatch.Daemon.Tests.Web.Settings;

public sealed class SettingWordsTests
{
    [Theory]
    [InlineData("temperature.low", "warm enough from")]
    [InlineData("settings.serviceNumber", "settings: service number")]
    [InlineData("probe-silent", "probe silent")]
    [InlineData("caFile", "ca file")]
    public void A_key_is_its_own_words_or_those_that_it_is_made_of(string key, string words) => Assert.Equal(words, SettingWords.Key(key));

    [Theory]
    [InlineData("display", "si", "°C, litres, kilograms and grams")]
    [InlineData("latch", "true", "yes")]
    [InlineData("orp.weak", "-660 mV", "−660 mV")]
    [InlineData("name", "-", "-")]
    [InlineData("site", "us", "us")]
    public void A_value_is_words_where_it_is_a_word_of_the_file(string key, string value, string words) => Assert.Equal(words, SettingWords.Value(key, value));
}
