using System.Text;
using VatWatch.Vats.Configuration;

namespace VatWatch.Tests.Vats.Configuration;

public sealed class ConfigNodeTests
{
    private readonly ConfigFaults _faults = new();

    [Fact]
    public void Comments_and_trailing_commas_are_allowed()
    {
        var node = Open("""{ /* a */ "name": "x", // b""" + "\n }");
        Assert.Equal("x", node.Text("name", "a text"));
        Assert.Empty(_faults.All);
    }

    [Fact]
    public void A_fault_names_the_key_path_what_was_seen_and_what_was_wanted()
    {
        Open("""{ "vat": { "low": "38" } }""").Section("vat").Quantity("low", QuantityKind.Temperature, 0, 105);
        Assert.Equal("vat.low is \"38\"; wanted a temperature with its unit, such as \"113 °F\", from 0 °C to 105 °C.", Assert.Single(_faults.All).ToString());
    }

    [Fact]
    public void Every_unknown_key_is_a_fault_that_lists_the_known_ones()
    {
        var node = Open("""{ "site": "a", "sight": "b", "disply": "us" }""");
        node.Text("site", "a name");
        node.Done();
        Assert.Equal(["sight", "disply"], _faults.All.Select(fault => fault.Path));
        Assert.All(_faults.All, fault => Assert.Equal("one of site", fault.Wanted));
    }

    [Fact]
    public void A_key_written_twice_is_a_fault()
    {
        Open("""{ "site": "a", "site": "b" }""");
        Assert.Equal("site is written twice; wanted the key once.", Assert.Single(_faults.All).ToString());
    }

    [Fact]
    public void A_device_or_a_pipe_is_no_configuration_and_is_not_waited_for()
    {
        Assert.Null(ConfigFile.Open("/dev/zero", _faults));
        Assert.Contains("a pipe or a device", Assert.Single(_faults.All).ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void What_stands_in_the_file_cannot_turn_a_sentence_about_it_round()
    {
        Open("""{ "name": "a\u202e\u0007\u2028b" }""").Title("name", "Vat");
        Assert.Contains("\"a\\u202e\\u0007\\u2028b\"", Assert.Single(_faults.All).ToString(), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("{ \"a\": }", "line 1, character 8")]
    [InlineData("", "line 1")]
    [InlineData("{\n\"a\": tru }", "line 2")]
    public void Broken_text_is_told_with_its_line(string text, string where)
    {
        Assert.Null(ConfigFile.Parse(Encoding.UTF8.GetBytes(text), _faults));
        Assert.Contains(where, Assert.Single(_faults.All).ToString(), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("{ \"site\": \"\\ud800\" }")]
    [InlineData("{ \"\\udc00\": 1 }")]
    public void Half_a_surrogate_pair_is_a_fault_and_not_an_exception(string text)
    {
        Assert.Null(ConfigFile.Parse(Encoding.UTF8.GetBytes(text), _faults));
        Assert.Single(_faults.All);
    }

    [Fact]
    public void Bytes_that_are_not_UTF_8_are_a_fault()
    {
        Assert.Null(ConfigFile.Parse("{ \"site\": \"\u00c3("u8.ToArray().Append((byte)0xCE).Concat("\" }"u8.ToArray()).ToArray(), _faults));
        Assert.Equal("the configuration is not text in UTF-8; wanted a file saved as UTF-8.", Assert.Single(_faults.All).ToString());
    }

    [Theory]
    [InlineData("[]", "an empty list")]
    [InlineData("3", "3")]
    [InlineData("null", "null")]
    public void A_file_that_is_not_an_object_is_a_fault_and_nothing_more(string text, string seen)
    {
        var node = Open(text);
        node.Text("site", "a name");
        node.Section("buses").Text("kind", "a word");
        Assert.Equal($"the configuration is {seen}; wanted an object {{ ... }}.", Assert.Single(_faults.All).ToString());
    }

    [Theory]
    [InlineData("true")]
    [InlineData("\"3\"")]
    [InlineData("11")]
    [InlineData("2.5")]
    [InlineData("1e99")]
    public void A_whole_number_out_of_range_or_of_another_kind_is_a_fault(string json)
    {
        Open($$"""{ "n": {{json}} }""").Whole("n", 1, 10);
        Assert.Equal($"n is {json}; wanted a whole number from 1 to 10.", Assert.Single(_faults.All).ToString());
    }

    private ConfigNode Open(string json) => ConfigFile.Parse(Encoding.UTF8.GetBytes(json), _faults)!;
}
