using VatWatch.Charts.Recipes.Ink;

namespace VatWatch.Charts.Reports.Pdf;

/// <summary>A column of headed lists of label and value on a printed page, of a limited height.</summary>
internal sealed class PdfColumn(float width, float text, float most)
{
    private const float LabelShare = 0.52f;
    private readonly List<Line> _lines = [];

    /// <summary>Height so far, units.</summary>
    public float Height { get; private set; }

    private float LineHeight => text * 1.32f;

    /// <summary>Adds a list; what does not fit is counted in a last line.</summary>
    /// <param name="none">Stands for a list without rows.</param>
    /// <param name="share">Share of the column's greatest height that may be full when this list ends.</param>
    public void Add(string heading, string none, IReadOnlyList<(string Label, string Value)> rows, float share = 1)
    {
        Append(new Line([heading], [], LineHeight * 1.6f, true));
        if (rows.Count == 0)
            AddLine(none);
        for (var i = 0; i < rows.Count; i++)
        {
            var line = Wrapped(rows[i].Label, rows[i].Value);
            if (Height + line.Height + LineHeight * 2 > most * share)
            {
                AddLine($"and {rows.Count - i} more");
                return;
            }

            Append(line);
        }
    }

    public void AddLine(string words) => Append(new Line([Lettering.Fit(words, width, text)], [], LineHeight, false));

    /// <summary>Adds sentences across the whole width, each on as many lines as it needs.</summary>
    public void AddSentences(string heading, IReadOnlyList<string> sentences)
    {
        if (sentences.Count == 0)
            return;
        Append(new Line([heading], [], LineHeight * 1.6f, true));
        foreach (var sentence in sentences)
        {
            var lines = Lettering.Wrap(sentence, width, text);
            Append(new Line(lines, [], LineHeight * (lines.Count + 0.25f), false));
        }
    }

    public void Draw(Lettering lettering, float x, float y)
    {
        foreach (var line in _lines)
        {
            var baseline = y + (line.IsHeading ? line.Height - text * 0.45f : text);
            for (var i = 0; i < line.Label.Count; i++)
            {
                lettering.Write(line.Label[i], x, baseline + i * LineHeight, line.IsHeading ? text * 1.1f : text,
                    line.IsHeading ? Inks.Text : Inks.Faint, bold: line.IsHeading);
            }

            for (var i = 0; i < line.Value.Count; i++)
                lettering.Write(line.Value[i], x + width * LabelShare, baseline + i * LineHeight, text, Inks.Text);
            y += line.Height;
        }
    }

    private Line Wrapped(string label, string value)
    {
        var labels = Lettering.Wrap(label, width * LabelShare - text, text);
        var values = Lettering.Wrap(value, width * (1 - LabelShare), text);
        return new Line(labels, values, LineHeight * Math.Max(labels.Count, values.Count), false);
    }

    private void Append(Line line)
    {
        _lines.Add(line);
        Height += line.Height;
    }

    private sealed record Line(IReadOnlyList<string> Label, IReadOnlyList<string> Value, float Height, bool IsHeading);
}
