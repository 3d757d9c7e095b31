using System.Text;

namespace VatWatch.Daemon.Web.Health;

/// <summary>Writes families in the OpenMetrics 1.0 text format.</summary>
internal static class OpenMetricsText
{
    /// <summary>The whole exposition with its end mark. Families of one name from several sources are put together, as the format asks.</summary>
    public static string Write(IEnumerable<MetricFamily> families)
    {
        var text = new StringBuilder(4096);
        foreach (var sameName in families.GroupBy(family => family.Name, StringComparer.Ordinal))
        {
            var first = sameName.First();
            text.Append("# TYPE ").Append(first.Name).Append(' ').Append(first.Type.Word()).Append('\n');
            if (first.Unit.Length > 0)
            {
                text.Append("# UNIT ").Append(first.Name).Append(' ').Append(first.Unit).Append('\n');
            }

            text.Append("# HELP ").Append(first.Name).Append(' ').Append(Escape(first.Help)).Append('\n');
            foreach (var sample in sameName.SelectMany(family => family.Samples))
            {
                text.Append(first.Name).Append(first.Type == MetricType.Counter ? "_total" : "");
                AppendLabels(text, sample.Labels);
                text.Append(' ').Append(Number(sample.Value)).Append('\n');
            }
        }

        return text.Append("# EOF\n").ToString();
    }

    private static void AppendLabels(StringBuilder text, IReadOnlyList<(string Name, string Value)> labels)
    {
        if (labels.Count > 0)
        {
            text.Append('{').AppendJoin(',', labels.Select(label => $"{label.Name}=\"{Escape(label.Value)}\"")).Append('}');
        }
    }

    private static string Escape(string text) =>
        text.Replace("\\", "\\\\", StringComparison.Ordinal).Replace("\"", "\\\"", StringComparison.Ordinal).Replace("\n", "\\n", StringComparison.Ordinal);

    private static string Number(double value) => value switch
    {
        double.PositiveInfinity => "+Inf",
        double.NegativeInfinity => "-Inf",
        double.NaN => "NaN",
        _ => value.ToString("R"),
    };
}
