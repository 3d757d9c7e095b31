namespace VatWatch.Science.Carbonate;

/// <summary>Bisection of a monotonic function: slow, and it cannot run away.</summary>
internal static class Bisection
{
    // 60 halvings of any bracket used here reach the last digits of a double.
    private const int Halvings = 60;

    /// <summary>The point in the bracket where <paramref name="isBelow"/> turns from true to false.</summary>
    public static double Turn(double low, double high, Func<double, bool> isBelow)
    {
        for (var i = 0; i < Halvings; i++)
        {
            var middle = 0.5 * (low + high);
            if (isBelow(middle))
                low = middle;
            else
                high = middle;
        }

        return 0.5 * (low + high);
    }
}
