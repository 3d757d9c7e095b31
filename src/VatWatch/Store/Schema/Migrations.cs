using Microsoft.Data.Sqlite;
using VatWatch.Store.Disk;
using VatWatch.Store.Sql;

namespace VatWatch.Store.Schema;

/// <summary>
/// Every step of the schema, in order; the number of a step is its place, counted from 1, and stands in <c>PRAGMA user_version</c>.
/// A step that has been released is never changed: what comes later is a new step. FORMAT.md says what the columns mean.
/// </summary>
internal static class Migrations
{
    /// <summary>The version this program writes.</summary>
    public static int Newest => Steps.Length;

    /// <summary>Brings a database up to date, each step in a transaction of its own. After a fault the connection must be closed, which rolls back.</summary>
    public static void Apply(SqlSession sql, int upTo)
    {
        for (var version = Version(sql); version < upTo; version++)
        {
            sql.Execute("BEGIN IMMEDIATE");
            sql.ExecuteAll(Steps[version]);
            sql.Execute($"PRAGMA user_version = {version + 1}");
            sql.Execute("COMMIT");
        }
    }

    /// <summary>
    /// Whether a database holds exactly what the newest schema does. When it says that it is of another version all the same, that number is damaged.
    /// </summary>
    public static bool IsNewest(SqlSession sql)
    {
        using var connection = new SqliteConnection("Data Source=:memory:;Pooling=False");
        connection.Open();
        using var fresh = new SqlSession(connection);
        Apply(fresh, Newest);
        return Names(sql).SequenceEqual(Names(fresh));
    }

    /// <summary>Tables, indexes and columns: a step may add columns alone.</summary>
    private static List<string> Names(SqlSession sql) => sql.Query(
        """
        SELECT s.name || '.' || coalesce(c.name, '') FROM sqlite_schema s LEFT JOIN pragma_table_info(s.name) c
        WHERE s.name NOT LIKE 'sqlite_stat%' ORDER BY 1
        """,
        row => row.GetString(0));

    /// <summary>The version of a database; 0 for one without a schema.</summary>
    public static int Version(SqlSession sql) => (int)sql.Whole("PRAGMA user_version")!.Value;

    private const string Readings = """
        CREATE TABLE run (
            id INTEGER PRIMARY KEY,
            started INTEGER NOT NULL,
            pid INTEGER NOT NULL,
            tried INTEGER,
            ended INTEGER);
        CREATE TABLE probe (
            id INTEGER PRIMARY KEY,
            vat TEXT NOT NULL,
            probe TEXT NOT NULL,
            measures TEXT NOT NULL,
            unit TEXT NOT NULL,
            UNIQUE (vat, probe, measures));
        CREATE TABLE reason (
            id INTEGER PRIMARY KEY,
            words TEXT NOT NULL UNIQUE);
        CREATE TABLE circumstance (
            id INTEGER PRIMARY KEY,
            run INTEGER NOT NULL REFERENCES run,
            probe INTEGER NOT NULL REFERENCES probe,
            origin INTEGER NOT NULL,
            utc_trusted INTEGER NOT NULL,
            quality INTEGER NOT NULL,
            reason INTEGER REFERENCES reason,
            calibration INTEGER);
        CREATE TABLE measurement (
            id INTEGER PRIMARY KEY,
            circumstance INTEGER NOT NULL,
            skew INTEGER NOT NULL,
            raw,
            value);
        CREATE TABLE late (
            seq INTEGER PRIMARY KEY AUTOINCREMENT,
            measurement INTEGER NOT NULL);
        CREATE TABLE rollup_1 (
            id INTEGER PRIMARY KEY, count INTEGER NOT NULL, worst INTEGER NOT NULL,
            first_value, last_value, min_value, max_value, sum_value);
        CREATE TABLE rollup_15 (
            id INTEGER PRIMARY KEY, count INTEGER NOT NULL, worst INTEGER NOT NULL,
            first_value, last_value, min_value, max_value, sum_value);
        CREATE VIEW measurement_plain AS
            SELECT
                strftime('%Y-%m-%dT%H:%M:%S', 1577836800 + (m.micros - m.fraction) / 1000000, 'unixepoch') || printf('.%06dZ', m.fraction) AS utc,
                c.utc_trusted AS utc_trusted, p.vat AS vat, p.probe AS probe, p.measures AS measures, p.unit AS unit,
                CASE typeof(m.raw) WHEN 'integer'
                    THEN (m.raw >> 2) / CASE m.raw & 3 WHEN 0 THEN 1.0 WHEN 1 THEN 10.0 WHEN 2 THEN 100.0 ELSE 10000.0 END
                    WHEN 'blob' THEN NULL
                    ELSE m.raw END AS raw,
                CASE typeof(m.shown) WHEN 'integer'
                    THEN (m.shown >> 2) / CASE m.shown & 3 WHEN 0 THEN 1.0 WHEN 1 THEN 10.0 WHEN 2 THEN 100.0 ELSE 10000.0 END
                    WHEN 'blob' THEN NULL
                    ELSE m.shown END AS value,
                CASE c.quality WHEN 0 THEN 'good' WHEN 1 THEN 'suspect' WHEN 2 THEN 'missing' ELSE 'fault' END AS quality,
                r.words AS reason, c.calibration AS calibration, c.run AS run
            FROM (
                SELECT *, id >> 6 AS micros, ((id >> 6) % 1000000 + 1000000) % 1000000 AS fraction, coalesce(value, raw) AS shown
                FROM measurement) m
            JOIN circumstance c ON c.id = m.circumstance
            JOIN probe p ON p.id = c.probe
            LEFT JOIN reason r ON r.id = c.reason;
        """;

    private const string Calibrations = """
        CREATE TABLE calibration (
            id INTEGER PRIMARY KEY AUTOINCREMENT,
            probe TEXT NOT NULL,
            utc INTEGER NOT NULL,
            json TEXT NOT NULL);
        CREATE INDEX calibration_probe ON calibration (probe, id);
        """;

    private const string AlarmColumns = """
            vat TEXT NOT NULL,
            alarm TEXT NOT NULL,
            state TEXT NOT NULL,
            priority TEXT NOT NULL,
            run INTEGER NOT NULL,
            since_utc INTEGER NOT NULL,
            since_monotonic INTEGER NOT NULL,
            since_trusted INTEGER NOT NULL,
            value,
            limit_value,
            unit TEXT NOT NULL,
            text TEXT NOT NULL,
            action TEXT NOT NULL,
            acknowledged_by TEXT,
            acknowledged_at INTEGER
        """;

    private const string Alarms = $"""
        CREATE TABLE alarm_status (
        {AlarmColumns},
            PRIMARY KEY (vat, alarm)) WITHOUT ROWID;
        CREATE TABLE alarm_change (
            id INTEGER PRIMARY KEY AUTOINCREMENT,
            utc INTEGER NOT NULL,
            monotonic INTEGER NOT NULL,
            utc_trusted INTEGER NOT NULL,
            before TEXT NOT NULL,
            by TEXT,
            announce INTEGER NOT NULL,
        {AlarmColumns});
        CREATE INDEX alarm_change_utc ON alarm_change (utc);
        """;

    private const string OutboxTable = """
        CREATE TABLE outbox (
            id INTEGER PRIMARY KEY AUTOINCREMENT,
            channel TEXT NOT NULL,
            vat TEXT NOT NULL,
            alarm TEXT NOT NULL,
            priority TEXT NOT NULL,
            weight INTEGER NOT NULL,
            created INTEGER NOT NULL,
            sentence TEXT NOT NULL,
            attempts INTEGER NOT NULL DEFAULT 0,
            failure TEXT,
            delivered INTEGER);
        CREATE INDEX outbox_pending ON outbox (channel, id) WHERE delivered IS NULL;
        CREATE TABLE outbox_dropped (
            channel TEXT PRIMARY KEY,
            count INTEGER NOT NULL) WITHOUT ROWID;
        """;

    private const string Sessions = """
        CREATE TABLE session (
            row INTEGER PRIMARY KEY AUTOINCREMENT,
            vat TEXT NOT NULL,
            id TEXT NOT NULL,
            run INTEGER NOT NULL,
            started INTEGER NOT NULL,
            monotonic INTEGER NOT NULL,
            utc_trusted INTEGER NOT NULL,
            ended INTEGER,
            by TEXT NOT NULL,
            yarn_grams REAL,
            fibre TEXT,
            shade TEXT,
            verdict TEXT,
            UNIQUE (vat, id));
        CREATE INDEX session_started ON session (vat, started);
        CREATE TABLE session_entry (
            id INTEGER PRIMARY KEY AUTOINCREMENT,
            vat TEXT NOT NULL,
            session TEXT,
            run INTEGER NOT NULL,
            utc INTEGER NOT NULL,
            monotonic INTEGER NOT NULL,
            utc_trusted INTEGER NOT NULL,
            kind TEXT NOT NULL,
            by TEXT NOT NULL,
            material TEXT,
            amount REAL,
            text TEXT,
            withdrawn INTEGER,
            withdrawn_by TEXT,
            FOREIGN KEY (vat, session) REFERENCES session (vat, id));
        CREATE INDEX session_entry_utc ON session_entry (vat, utc);
        CREATE INDEX session_entry_session ON session_entry (vat, session);
        CREATE TABLE photo (
            entry INTEGER PRIMARY KEY REFERENCES session_entry,
            media_type TEXT NOT NULL,
            bytes BLOB NOT NULL);
        CREATE TABLE learned_heat (
            vat TEXT PRIMARY KEY,
            utc INTEGER NOT NULL,
            json TEXT NOT NULL) WITHOUT ROWID;
        """;

    private const string AlarmsSetAside = """
        ALTER TABLE alarm_status ADD COLUMN stands INTEGER;
        ALTER TABLE alarm_status ADD COLUMN aside_by TEXT;
        ALTER TABLE alarm_status ADD COLUMN aside_utc INTEGER;
        ALTER TABLE alarm_status ADD COLUMN aside_trusted INTEGER;
        ALTER TABLE alarm_status ADD COLUMN aside_because TEXT;
        ALTER TABLE alarm_status ADD COLUMN aside_until INTEGER;
        ALTER TABLE alarm_change ADD COLUMN stands INTEGER;
        ALTER TABLE alarm_change ADD COLUMN aside_by TEXT;
        ALTER TABLE alarm_change ADD COLUMN aside_utc INTEGER;
        ALTER TABLE alarm_change ADD COLUMN aside_trusted INTEGER;
        ALTER TABLE alarm_change ADD COLUMN aside_because TEXT;
        ALTER TABLE alarm_change ADD COLUMN aside_until INTEGER;
        ALTER TABLE alarm_change ADD COLUMN via TEXT;
        ALTER TABLE alarm_change ADD COLUMN note TEXT;
        CREATE INDEX alarm_change_vat ON alarm_change (vat, utc);
        CREATE TABLE desk_request (
            id INTEGER PRIMARY KEY AUTOINCREMENT,
            utc INTEGER NOT NULL,
            act TEXT NOT NULL,
            vat TEXT NOT NULL,
            alarm TEXT,
            by TEXT NOT NULL,
            minutes,
            words TEXT,
            done INTEGER,
            answer TEXT);
        CREATE INDEX desk_request_waiting ON desk_request (id) WHERE done IS NULL;
        """;

    private const string Forwarding = """
        CREATE TABLE condition (
            id INTEGER PRIMARY KEY AUTOINCREMENT,
            utc INTEGER NOT NULL,
            utc_trusted INTEGER NOT NULL,
            vat TEXT NOT NULL,
            state TEXT NOT NULL,
            reasons TEXT NOT NULL,
            numbers TEXT NOT NULL);
        CREATE INDEX condition_utc ON condition (utc);
        CREATE TABLE forward_place (
            server TEXT PRIMARY KEY,
            measurement INTEGER NOT NULL,
            late INTEGER NOT NULL,
            condition INTEGER NOT NULL,
            alarm_change INTEGER NOT NULL) WITHOUT ROWID;
        CREATE TABLE forward_aside (
            id INTEGER PRIMARY KEY AUTOINCREMENT,
            server TEXT NOT NULL,
            utc INTEGER NOT NULL,
            reason TEXT NOT NULL,
            line TEXT NOT NULL);
        """;

    private const string Contacts = """
        ALTER TABLE outbox ADD COLUMN document TEXT;
        ALTER TABLE outbox ADD COLUMN set_aside INTEGER NOT NULL DEFAULT 0;
        CREATE TABLE contact_call (
            contact TEXT NOT NULL,
            vat TEXT NOT NULL,
            alarm TEXT NOT NULL,
            opened INTEGER NOT NULL,
            due INTEGER,
            told INTEGER NOT NULL,
            repeats INTEGER NOT NULL,
            PRIMARY KEY (contact, vat, alarm)) WITHOUT ROWID;
        """;

    /// <summary>Months that earlier versions moved into files; and what finds readings taken while the clock was not trusted.</summary>
    private const string Archive = """
        CREATE TABLE archive (
            vat TEXT NOT NULL,
            month INTEGER NOT NULL,
            rows INTEGER NOT NULL,
            removed_to INTEGER NOT NULL,
            done INTEGER NOT NULL,
            PRIMARY KEY (vat, month)) WITHOUT ROWID;
        CREATE INDEX circumstance_untrusted ON circumstance (id) WHERE utc_trusted = 0;
        CREATE INDEX circumstance_run ON circumstance (run, utc_trusted, id);
        """;

    /// <summary>When a heated vat should be ready; and without months in archive files and what verbs asked the daemon before it had a socket.</summary>
    private const string Heater = """
        ALTER TABLE session_entry ADD COLUMN ready_by INTEGER;
        DROP TABLE archive;
        DROP TABLE desk_request;
        """;

    /// <summary>
    /// Which tap an entry came from, so that a phone may send it again; the dips that a session is meant to have; what an entry is about where that is no material, and how strong
    /// what was added is; and plans that are kept.
    /// </summary>
    private const string LogBook = """
        ALTER TABLE session_entry ADD COLUMN tap TEXT;
        CREATE UNIQUE INDEX session_entry_tap ON session_entry (vat, tap) WHERE tap IS NOT NULL;
        ALTER TABLE session_entry ADD COLUMN subject TEXT;
        ALTER TABLE session_entry ADD COLUMN strength REAL;
        ALTER TABLE session ADD COLUMN dip_minutes REAL;
        ALTER TABLE session ADD COLUMN airing_minutes REAL;
        ALTER TABLE session ADD COLUMN dips INTEGER;
        CREATE TABLE plan (
            vat TEXT NOT NULL,
            kind TEXT NOT NULL,
            begins INTEGER NOT NULL,
            utc INTEGER NOT NULL,
            json TEXT NOT NULL,
            PRIMARY KEY (vat, kind, begins)) WITHOUT ROWID;
        """;

    private static readonly string[] Steps =
    [
        $"PRAGMA application_id = {StoreFile.ApplicationId};\n{Readings}",
        Calibrations,
        Alarms,
        OutboxTable,
        Sessions,
        AlarmsSetAside,
        Forwarding,
        Contacts,
        Archive,
        Heater,
        LogBook,
    ];
}
