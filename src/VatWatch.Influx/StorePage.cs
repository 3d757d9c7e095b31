using VatWatch.Alarms.Journal;
using VatWatch.Conditions.Stored;
using VatWatch.Store;

namespace VatWatch.Influx;

/// <summary>Some of what the store holds after a place, as points.</summary>
/// <param name="Lines">Points; alarm changes first, then conditions, then readings.</param>
/// <param name="Next">The place once all of them are with the server.</param>
internal sealed record StorePage(IReadOnlyList<string> Lines, ForwardPlace Next)
{
    /// <summary>Reads at most <paramref name="most"/> points after <paramref name="place"/>; empty when there is nothing more.</summary>
    public static StorePage Read(StoreReader reader, ForwardPlace place, PointLines points, int most)
    {
        var lines = new List<string>();
        foreach (var change in AlarmJournal.After(reader, place.AlarmChange, most))
        {
            lines.Add(points.Of(change));
            place = place with { AlarmChange = change.Id };
        }

        if (lines.Count < most)
        {
            foreach (var condition in ConditionTable.After(reader, place.Condition, most - lines.Count))
            {
                lines.Add(points.Of(condition));
                place = place with { Condition = condition.Id };
            }
        }

        if (lines.Count < most)
        {
            var (rows, next) = reader.RowsAfter(place.Readings, most - lines.Count);
            lines.AddRange(rows.Select(points.Of));
            place = place with { Readings = next };
        }

        return new(lines, place);
    }

    /// <summary>The place before everything whose label is at or after <paramref name="from"/>.</summary>
    public static ForwardPlace At(StoreReader reader, DateTimeOffset from) =>
        new(reader.CursorAt(from), ConditionTable.Before(reader, from), AlarmJournal.Before(reader, from));
}
