namespace VatWatch.Conditions.Reduction;

/// <summary>Finds values by their rank without sorting all: what a median asks, at a fraction of the time.</summary>
internal static class RankedValues
{
    private const int FewEnoughToSort = 12;

    /// <summary>The value that would stand at <paramref name="rank"/> if <paramref name="values"/> were sorted; puts the smaller before it and the larger after it.</summary>
    public static double At(Span<double> values, int rank)
    {
        var (low, high) = (0, values.Length - 1);
        while (high - low >= FewEnoughToSort)
        {
            var pivot = MiddleOf(values[low], values[low + (high - low) / 2], values[high]);
            var (left, right) = (low, high);
            while (left <= right)
            {
                while (values[left] < pivot)
                {
                    left++;
                }

                while (values[right] > pivot)
                {
                    right--;
                }

                if (left <= right)
                {
                    (values[left], values[right]) = (values[right], values[left]);
                    left++;
                    right--;
                }
            }

            if (rank > right && rank < left)
            {
                return values[rank];
            }

            (low, high) = rank <= right ? (low, right) : (left, high);
        }

        values[low..(high + 1)].Sort();
        return values[rank];
    }

    private static double MiddleOf(double a, double b, double c) => Math.Max(Math.Min(a, b), Math.Min(Math.Max(a, b), c));
}
