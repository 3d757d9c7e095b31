namespace VatWatch.Store.Series;

/// <summary>Joins two sorted sequences into one.</summary>
internal static class SortedMerge
{
    /// <summary>Both in order of <paramref name="key"/>; where two are equal, the one of <paramref name="left"/> first. Streamed.</summary>
    public static IEnumerable<T> Of<T, TKey>(IEnumerable<T> left, IEnumerable<T> right, Func<T, TKey> key)
        where TKey : IComparable<TKey>
    {
        using var other = right.GetEnumerator();
        var hasOther = other.MoveNext();
        foreach (var item in left)
        {
            for (; hasOther && key(other.Current).CompareTo(key(item)) < 0; hasOther = other.MoveNext())
            {
                yield return other.Current;
            }

            yield return item;
        }

        for (; hasOther; hasOther = other.MoveNext())
        {
            yield return other.Current;
        }
    }
}
