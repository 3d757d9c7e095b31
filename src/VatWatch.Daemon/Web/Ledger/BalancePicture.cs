using VatWatch.Ledger;

namespace VatWatch.Daemon.Web.Ledger;

/// <summary>The indigo of a vat over time as points of a drawing.</summary>
/// <param name="Line">Points of the best values.</param>
/// <param name="Range">Points round their range.</param>
/// <param name="Most">What the upper edge stands for, g.</param>
internal sealed record BalancePicture(string Line, string Range, double Most)
{
    /// <summary>More points than this show nothing more.</summary>
    private const int MostPoints = 300;

    /// <summary>The picture; null while there is nothing to draw.</summary>
    public static BalancePicture? Of(IReadOnlyList<VatBalance> history, double width, double height)
    {
        var span = history[^1].At - history[0].At;
        var most = history.Max(one => one.Indigo.High);
        if (history.Count < 3 || span <= TimeSpan.Zero || most <= 0)
        {
            return null;
        }

        var step = Math.Max(1, history.Count / MostPoints);
        var shown = history.Where((_, index) => index % step == 0 || index == history.Count - 1).ToList();
        return new(
            string.Join(' ', shown.Select(one => Point(one, one.Indigo.Value))),
            string.Join(' ', shown.Select(one => Point(one, one.Indigo.High)).Concat(shown.AsEnumerable().Reverse().Select(one => Point(one, one.Indigo.Low)))),
            most);

        string Point(VatBalance one, double grams) => $"{width * ((one.At - history[0].At) / span):0.#},{height * (1 - grams / most):0.#}";
    }
}
