using VatWatch.Alarms.Rules.Probes;
using VatWatch.Store;
using VatWatch.Store.Sql;

namespace VatWatch.Alarms.Journal;

/// <summary>
/// Keeps every change of every alarm, and each alarm as it stands, in the store. A change and the state it leads to are written in one
/// transaction, so they never disagree.
/// </summary>
/// <remarks>
/// Stamps: the UTC label and its trust come back exactly. A monotonic time is exact while it belongs to the newest run of the daemon. One of an
/// earlier run says nothing about the present clock; it is placed by its UTC label as <see cref="Place"/> says.
/// </remarks>
public static class AlarmJournal
{
    /// <summary>
    /// Writes one change and makes it the present state of its alarm. The same change again (same alarm, transition and stamp) is not written
    /// twice, so that one whose commit was not heard of may simply be appended again.
    /// </summary>
    public static void Append(StoreTransaction transaction, AlarmChange change)
    {
        var status = StatusValues(transaction, change.Status);
        transaction.Sql.Execute(
            $"""
            INSERT INTO alarm_change (utc, monotonic, utc_trusted, before, by, announce, via, note, {StatusColumns})
            SELECT $utc, $monotonic, $trusted, $before, $by, $announce, $via, $note, {StatusParameters}
            WHERE NOT EXISTS (
                SELECT 1 FROM alarm_change
                WHERE utc = $utc AND monotonic = $monotonic AND vat = $s_vat AND alarm = $s_alarm AND before = $before AND state = $s_state AND note IS $note)
            """,
            [
                ("$utc", StoredTime.Of(change.Stamp.Utc)),
                ("$monotonic", change.Stamp.Monotonic.Ticks),
                ("$trusted", change.Stamp.UtcTrusted ? 1L : 0L),
                ("$before", change.Before.Word()),
                ("$by", change.By),
                ("$announce", change.Announce ? 1L : 0L),
                ("$via", change.Via),
                ("$note", change.Note),
                .. status,
            ]);
        if (change.Note is not null)
        {
            return;
        }

        transaction.Sql.Execute($"INSERT OR REPLACE INTO alarm_status ({StatusColumns}) VALUES ({StatusParameters})", status);
    }

    /// <summary>Every alarm that ever changed, as it stands, in order of vat and name.</summary>
    /// <param name="now">This moment by the vat's clock, to place alarms of earlier runs on it; null when durations are not wanted.</param>
    public static IReadOnlyList<AlarmStatus> Current(StoreReader reader, Stamp? now = null)
    {
        var run = reader.NewestRun;
        return reader.Guard(() => reader.Sql.Query($"SELECT {StatusColumns} FROM alarm_status ORDER BY vat, alarm", row => ReadStatus(row, run, now)));
    }

    /// <summary>
    /// Changes from <paramref name="from"/> up to, not including, <paramref name="to"/> by their UTC label; in order of that, and of the journal
    /// where labels are equal. Null for every vat.
    /// </summary>
    public static IReadOnlyList<AlarmChange> Changes(StoreReader reader, VatId? vat, DateTimeOffset from, DateTimeOffset to)
    {
        var run = reader.NewestRun;
        return reader.Guard(() => reader.Sql.Query(
            $"""
            SELECT {ChangeColumns} FROM alarm_change
            WHERE utc >= $from AND utc < $to AND ($vat IS NULL OR vat = $vat) ORDER BY utc, id
            """,
            row => ReadChange(row, run),
            ("$from", StoredTime.Of(from)),
            ("$to", StoredTime.Of(to)),
            ("$vat", vat?.Value)));
    }

    /// <summary>The newest changes before a moment by their UTC label, newest first; read backwards, so that a long journal costs nothing.</summary>
    /// <param name="vat">Of this vat only; null for every vat and the daemon.</param>
    /// <param name="before">Only changes before this, UTC; null for the newest.</param>
    /// <param name="count">At most so many.</param>
    public static IReadOnlyList<AlarmChange> Newest(StoreReader reader, VatId? vat, DateTimeOffset? before, int count)
    {
        var run = reader.NewestRun;
        return reader.Guard(() => reader.Sql.Query(
            $"SELECT {ChangeColumns} FROM alarm_change WHERE utc < $before{(vat is null ? "" : " AND vat = $vat")} ORDER BY utc DESC, id DESC LIMIT $count",
            row => ReadChange(row, run),
            [("$before", StoredTime.Of(before ?? DateTimeOffset.MaxValue)), ("$count", (long)count), .. vat is { } of ? [("$vat", (object?)of.Value)] : Array.Empty<(string, object?)>()]));
    }

    /// <summary>The last transition of each alarm before a moment by its UTC label: how everything stood then.</summary>
    public static IReadOnlyList<AlarmChange> Opening(StoreReader reader, DateTimeOffset at)
    {
        var run = reader.NewestRun;
        return reader.Guard(() => reader.Sql.Query(
            $"""
            SELECT {ChangeColumns} FROM alarm_change
            WHERE id IN (SELECT max(id) FROM alarm_change WHERE utc < $at AND note IS NULL GROUP BY vat, alarm) ORDER BY utc, id
            """,
            row => ReadChange(row, run),
            ("$at", StoredTime.Of(at))));
    }

    /// <summary>Up to <paramref name="max"/> changes that were written after the one numbered <paramref name="id"/>, in order of the journal. For copying it elsewhere.</summary>
    public static IReadOnlyList<StoredAlarmChange> After(StoreReader reader, long id, int max)
    {
        var run = reader.NewestRun;
        return reader.Guard(() => reader.Sql.Query(
            $"""
            SELECT {ChangeColumns}, id FROM alarm_change
            WHERE id > $id ORDER BY id LIMIT $max
            """,
            row => new StoredAlarmChange(row.GetInt64("id"), ReadChange(row, run)),
            ("$id", id),
            ("$max", (long)max)));
    }

    /// <summary>Number of the last change before the first one whose label is at or after <paramref name="from"/>; 0 when there is none before.</summary>
    public static long Before(StoreReader reader, DateTimeOffset from) => reader.Guard(() =>
        reader.Sql.Whole("SELECT min(id) - 1 FROM alarm_change WHERE utc >= $from", ("$from", StoredTime.Of(from)))
        ?? reader.Sql.Whole("SELECT max(id) FROM alarm_change")
        ?? 0);

    /// <summary>
    /// The stamp of an earlier run on the present clock: as long ago as the UTC labels say, but never in the future. Without
    /// <paramref name="now"/> the monotonic time is zero: before anything of this run.
    /// </summary>
    internal static Stamp Place(DateTimeOffset utc, bool trusted, Stamp? now)
    {
        if (now is not { } present)
        {
            return new(utc, TimeSpan.Zero, trusted);
        }

        var age = present.Utc - utc;
        return new(utc, present.Monotonic - (age > TimeSpan.Zero ? age : TimeSpan.Zero), trusted);
    }

    private static AlarmChange ReadChange(StoreRow row, long newestRun)
    {
        var (utc, trusted) = (row.Moment("utc"), row.Flag("utc_trusted"));
        var stamp = row.GetInt64("run") == newestRun ? new Stamp(utc, TimeSpan.FromTicks(row.GetInt64("monotonic")), trusted) : Place(utc, trusted, null);
        return new(EnumWord.Parse<AlarmState>(row.GetString("before")), ReadStatus(row, newestRun, null), stamp, row.OptionalString("by"), row.Flag("announce"))
        {
            Via = row.OptionalString("via"),
            Note = row.OptionalString("note"),
        };
    }

    private static AlarmStatus ReadStatus(StoreRow row, long newestRun, Stamp? now)
    {
        var (utc, trusted) = (row.Moment("since_utc"), row.Flag("since_trusted"));
        var state = EnumWord.Parse<AlarmState>(row.GetString("state"));
        var alarm = new AlarmName(row.Name("alarm"));
        var (value, limit, unit) = Canonical(alarm, row.OptionalDouble("value"), row.OptionalDouble("limit_value"), row.GetString("unit"));
        return new()
        {
            Vat = new(row.Name("vat")),
            Alarm = alarm,
            State = state,
            Priority = EnumWord.Parse<AlarmPriority>(row.GetString("priority")),
            Since = row.GetInt64("run") == newestRun ? new(utc, TimeSpan.FromTicks(row.GetInt64("since_monotonic")), trusted) : Place(utc, trusted, now),
            Value = value,
            Limit = limit,
            Unit = unit,
            Text = Sentence.Parse(row.GetString("text")),
            Action = row.GetString("action"),
            AcknowledgedBy = row.OptionalString("acknowledged_by"),
            AcknowledgedAt = row.OptionalMoment("acknowledged_at"),
            Stands = row.OptionalFlag("stands") ?? state is AlarmState.Unacknowledged or AlarmState.Acknowledged,
            SetAside = row.OptionalMoment("aside_utc") is { } at
                ? new(row.OptionalString("aside_by"), at, row.Flag("aside_trusted"), row.OptionalString("aside_because") ?? "", row.OptionalMoment("aside_until"))
                : null,
        };
    }

    /// <summary>
    /// Rows of schema 5 and before hold numbers in the display's units, a difference of temperatures in °C or °F, and their sentence has the numbers
    /// written out; °F, and °C of a difference, say so.
    /// </summary>
    private static (double? Value, double? Limit, string Unit) Canonical(AlarmName alarm, double? value, double? limit, string unit) =>
        (unit, alarm.Kind == ProbeDisagreesAlarm.Kind.Word) switch
        {
            ("°F", true) => (value / 1.8, limit / 1.8, "K"),
            ("°C", true) => (value, limit, "K"),
            ("°F", false) => ((value - 32) / 1.8, (limit - 32) / 1.8, "°C"),
            _ => (value, limit, unit),
        };

    private static (string Name, object? Value)[] StatusValues(StoreTransaction transaction, AlarmStatus status) =>
    [
        ("$s_vat", status.Vat.Value),
        ("$s_alarm", status.Alarm.Value),
        ("$s_state", status.State.Word()),
        ("$s_priority", status.Priority.Word()),
        ("$s_run", transaction.Run),
        ("$s_since", StoredTime.Of(status.Since.Utc)),
        ("$s_monotonic", status.Since.Monotonic.Ticks),
        ("$s_trusted", status.Since.UtcTrusted ? 1L : 0L),
        ("$s_value", Finite(status.Value)),
        ("$s_limit", Finite(status.Limit)),
        ("$s_unit", status.Unit),
        ("$s_text", status.Text.Stored),
        ("$s_action", status.Action),
        ("$s_by", status.AcknowledgedBy),
        ("$s_at", status.AcknowledgedAt is { } at ? StoredTime.Of(at) : null),
        ("$s_stands", status.Stands ? 1L : 0L),
        ("$s_aside_by", status.SetAside?.By),
        ("$s_aside_utc", Stored(status.SetAside?.At)),
        ("$s_aside_trusted", status.SetAside is { } aside ? (aside.Trusted ? 1L : 0L) : null),
        ("$s_aside_because", status.SetAside?.Because),
        ("$s_aside_until", Stored(status.SetAside?.Until)),
    ];

    private static long? Stored(DateTimeOffset? moment) => moment is { } known ? StoredTime.Of(known) : null;

    /// <summary>Missing is not a number: NaN, which no alarm should carry, is kept as "no value".</summary>
    private static double? Finite(double? number) => number is { } value && !double.IsNaN(value) ? value : null;

    private const string StatusColumns = """
        vat, alarm, state, priority, run, since_utc, since_monotonic, since_trusted, value, limit_value, unit, text, action, acknowledged_by, acknowledged_at,
        stands, aside_by, aside_utc, aside_trusted, aside_because, aside_until
        """;

    private const string StatusParameters = """
        $s_vat, $s_alarm, $s_state, $s_priority, $s_run, $s_since, $s_monotonic, $s_trusted, $s_value, $s_limit, $s_unit, $s_text, $s_action, $s_by, $s_at,
        $s_stands, $s_aside_by, $s_aside_utc, $s_aside_trusted, $s_aside_because, $s_aside_until
        """;

    private const string ChangeColumns = $"utc, monotonic, utc_trusted, before, by, announce, via, note, {StatusColumns}";
}
