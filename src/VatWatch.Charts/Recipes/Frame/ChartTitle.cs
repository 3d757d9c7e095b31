using VatWatch.Charts.Recipes.Ink;

namespace VatWatch.Charts.Recipes.Frame;

/// <summary>The head of a chart: the vat's name, and below it the span or what else it shows.</summary>
internal sealed class ChartTitle
{
    private readonly ChartFrame _frame;
    private readonly string _name;
    private readonly IReadOnlyList<string> _lines;

    /// <summary>Fits the title to the width of the chart.</summary>
    public ChartTitle(ChartFrame frame, string name, string below)
    {
        _frame = frame;
        _name = Lettering.Fit(OneLine.Of(name), frame.Right - frame.Left, NameSize, bold: true);
        _lines = Lettering.Wrap(OneLine.Of(below), frame.Right - frame.Left, frame.Size.TextSize * 1.05f);
    }

    private float NameSize => _frame.Size.TextSize * 1.75f;

    /// <summary>Height, units.</summary>
    public float Height => NameSize * 1.45f + _lines.Count * LineHeight + _frame.Size.TextSize * 0.4f;

    private float LineHeight => _frame.Size.TextSize * 1.4f;

    /// <summary>Draws at the top of the canvas.</summary>
    public void Draw(Lettering lettering)
    {
        lettering.Write(_name, _frame.Left, NameSize * 1.3f, NameSize, Inks.Indigo, bold: true);
        for (var i = 0; i < _lines.Count; i++)
            lettering.Write(_lines[i], _frame.Left, NameSize * 1.3f + (i + 1) * LineHeight + 2, _frame.Size.TextSize * 1.05f, Inks.Faint);
    }
}
