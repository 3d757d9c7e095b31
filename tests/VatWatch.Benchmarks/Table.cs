using System.Globalization;

namespace VatWatch.Benchmarks;

/// <summary>Prints one line per figure: what was measured, its floor, their ratio and the bound to hold.</summary>
internal sealed class Table
{
    private bool _held = true;

    /// <summary>Whether every bound printed so far was held.</summary>
    public bool Held => _held;

    public void Ratio(string what, double measured, double floor, string unit, double bound) =>
        Line(what, string.Create(CultureInfo.InvariantCulture, $"{measured:0.##} {unit} against {floor:0.##} {unit}"), measured / floor, bound);

    public void Share(string what, string how, double share, double bound) => Line(what, how, share, bound);

    private void Line(string what, string how, double figure, double bound)
    {
        var held = figure <= bound;
        _held &= held;
        Console.Out.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{what,-58} {how,-34} {figure,8:0.###}  at most {bound,-6:0.###} {(held ? "held" : "NOT HELD")}"));
    }
}
