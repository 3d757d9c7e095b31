using VatWatch.Daemon.Web.Health;

namespace VatWatch.Daemon.Tests.Web.Health;

/// <summary>Checked against the ABNF and the rules of the OpenMetrics 1.0 text format.</summary>
public sealed class OpenMetricsTextTests
{
    [Fact]
    public void A_counter_gets_its_suffix_on_samples_only()
    {
        var text = OpenMetricsText.Write([MetricFamily.Counter("rows", "", "Rows written.", 3)]);

        Assert.Equal("# TYPE rows counter\n# HELP rows Rows written.\nrows_total 3\n# EOF\n", text);
    }

    [Fact]
    public void Families_of_one_name_stand_together()
    {
        var text = OpenMetricsText.Write(
        [
            new("age_seconds", MetricType.Gauge, "seconds", "Age.", [new(1.5, ("a", "1"))]),
            MetricFamily.Gauge("other", "", "Other.", 0),
            new("age_seconds", MetricType.Gauge, "seconds", "Age.", [new(2, ("a", "2"))]),
        ]);

        Assert.Equal(
            "# TYPE age_seconds gauge\n# UNIT age_seconds seconds\n# HELP age_seconds Age.\nage_seconds{a=\"1\"} 1.5\nage_seconds{a=\"2\"} 2\n"
            + "# TYPE other gauge\n# HELP other Other.\nother 0\n# EOF\n",
            text);
    }

    [Fact]
    public void A_state_set_is_called_as_its_label() => Assert.Equal(
        "# TYPE lid stateset\n# HELP lid Lid.\nlid{lid=\"on\"} 1\nlid{lid=\"off\"} 0\n# EOF\n",
        OpenMetricsText.Write([new("lid", MetricType.StateSet, "", "Lid.", [new(1, ("lid", "on")), new(0, ("lid", "off"))])]));

    [Fact]
    public void Odd_labels_are_escaped_and_odd_numbers_have_their_words()
    {
        var text = OpenMetricsText.Write([new("x", MetricType.Gauge, "", "H\nelp", [new(double.NaN, ("l", "a\"b\\c\nd")), new(double.PositiveInfinity), new(double.NegativeInfinity)])]);

        Assert.Equal("# TYPE x gauge\n# HELP x H\\nelp\nx{l=\"a\\\"b\\\\c\\nd\"} NaN\nx +Inf\nx -Inf\n# EOF\n", text);
    }
}
