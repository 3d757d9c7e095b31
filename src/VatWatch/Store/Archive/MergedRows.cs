namespace VatWatch.Store.Archive;

/// <summary>Joins sequences of readings, each in order of its labels, into one.</summary>
internal static class MergedRows
{
    /// <summary>One sequence in order of labels, then of keys.</summary>
    public static IEnumerable<StoredMeasurement> Of(IReadOnlyList<IEnumerable<StoredMeasurement>> sources)
    {
        var open = new List<IEnumerator<StoredMeasurement>>();
        try
        {
            foreach (var source in sources)
            {
                var rows = source.GetEnumerator();
                open.Add(rows);
                if (!rows.MoveNext())
                {
                    open.Remove(rows);
                    rows.Dispose();
                }
            }

            while (open.Count > 0)
            {
                var next = open.MinBy(rows => (rows.Current.Measurement.Stamp.Utc, rows.Current.Key))!;
                yield return next.Current;
                if (!next.MoveNext())
                {
                    open.Remove(next);
                    next.Dispose();
                }
            }
        }
        finally
        {
            open.ForEach(rows => rows.Dispose());
        }
    }
}
