namespace VatWatch.Conditions.Reduction;

/// <summary>Finds values by their rank without sorting all: what a median asks, at a fraction of the time.</summary>
internal static class RankedValues
{
    /// <summary>The value that would stand at <paramref name="rank"/> if <paramref name="values"/> were sorted; puts the smaller before it and the larger after it.</summary>
    public static double At(Span<double> values, int rank)
    {
        var (low, end) = (0, values.Length);
        while (end - low > 1)
        {
            var pivot = MiddleOf(values[low], values[low + (end - low) / 2], values[end - 1]);
            var split = low + PutSmallerFirst(values[low..end], pivot);
            if (split == low)
            {
                split = low + PutSmallerFirst(values[low..end], Math.BitIncrement(pivot));
                if (rank < split || split == low)
                {
                    return pivot;
                }
            }

            (low, end) = rank < split ? (low, split) : (split, end);
        }

        return values[low];
    }

    /// <summary>Puts the values below a bound before the others; how many they are.</summary>
    /// <remarks>Every value is written, whichever side it is on: a processor cannot guess the side, and a wrong guess costs more than a write.</remarks>
    private static int PutSmallerFirst(Span<double> values, double bound)
    {
        var count = 0;
        for (var at = 0; at < values.Length; at++)
        {
            var value = values[at];
            values[at] = values[count];
            values[count] = value;
            count += value < bound ? 1 : 0;
        }

        return count;
    }

    private static double MiddleOf(double a, double b, double c) => Math.Max(Math.Min(a, b), Math.Min(Math.Max(a, b), c));
}
