using System.Text;
using VatWatch.Alarms;
using VatWatch.Charts;
using VatWatch.Charts.Reports;
using VatWatch.Conditions;
using VatWatch.Daemon.Verbs.Terminal;
using VatWatch.Measurements;
using VatWatch.Pipeline.Replay;

namespace VatWatch.Daemon.Verbs.Replay;

/// <summary>
/// The folder a replay writes: <c>alarms.csv</c> and <c>conditions.csv</c> as they come, and <c>report.html</c> at the end, unless the log is too long to be drawn
/// in one picture.
/// </summary>
internal sealed class ReplayFolder : IReplayListener, IDisposable
{
    /// <summary>About two weeks of four probes every 5 s; more is held in memory by nobody.</summary>
    private const int MostForReport = 1_000_000;
    /// <summary>Twice as many as two weeks with one a minute.</summary>
    private const int MostLooks = 40_000;

    private static readonly TimeSpan FirstLookEvery = TimeSpan.FromMinutes(1);
    private static readonly UTF8Encoding Utf8 = new(encoderShouldEmitUTF8Identifier: false);

    private readonly string _folder;
    private readonly ReplaySetting _setting;
    private readonly StreamWriter _alarms;
    private readonly StreamWriter _conditions;
    private readonly List<Measurement> _measurements = [];
    private readonly List<AlarmChange> _changes = [];
    private readonly List<VatCondition> _looks = [];
    private TimeSpan _lookEvery;
    private long _count;
    private VatState? _state;
    private DateTimeOffset _written;

    private ReplayFolder(string folder, ReplaySetting setting)
    {
        _folder = folder;
        _setting = setting;
        _alarms = Open("alarms.csv", "time,alarm,state,before,priority,value,limit,unit,text");
        _conditions = Open("conditions.csv", "time,state,temperatureC,temperatureRateKPerHour,ph,orpMillivolts,orpRateMillivoltsPerHour,marginMillivolts,minutesToBand,minutesToLimit,reason");
    }

    public static ReplayFolder Create(string folder, ReplaySetting setting)
    {
        Directory.CreateDirectory(folder);
        return new ReplayFolder(folder, setting);
    }

    public void Observe(Measurement measurement)
    {
        if (++_count <= MostForReport)
        {
            _measurements.Add(measurement);
        }
        else if (_measurements.Count > 0)
        {
            Forget(_measurements);
            Forget(_looks);
            Forget(_changes);
        }
    }

    public void Observe(VatCondition condition)
    {
        var utc = condition.Stamp.Utc;
        if (condition.State == _state && utc - _written < TimeSpan.FromMinutes(1))
        {
            return;
        }

        (_state, _written) = (condition.State, utc);
        if (_count <= MostForReport && (_looks.Count == 0 || utc - _looks[^1].Stamp.Utc >= _lookEvery))
        {
            _looks.Add(condition);
            ThinLooks();
        }

        _conditions.WriteLine(string.Join(',',
            WallTime.Rfc3339(utc),
            condition.State.Word(),
            Number(condition.TemperatureC),
            Number(condition.TemperatureRateKPerHour),
            Number(condition.Ph),
            Number(condition.OrpMillivolts),
            Number(condition.OrpRateMillivoltsPerHour),
            Number(condition.Margin?.Millivolts),
            Number(condition.TimeToBand?.Middle.TotalMinutes),
            Number(condition.TimeToLimit?.Middle.TotalMinutes),
            Quoted(condition.Reasons[0])));
    }

    public void Observe(AlarmChange change)
    {
        var status = change.Status;
        var (text, value, limit, unit) = status.In(_setting.Units);
        if (_count <= MostForReport)
        {
            _changes.Add(change);
        }

        _alarms.WriteLine(string.Join(',',
            WallTime.Rfc3339(change.Stamp.Utc),
            status.Alarm.Value,
            status.State.Word(),
            change.Before.Word(),
            status.Priority.Word(),
            Number(value),
            Number(limit),
            Quoted(unit),
            Quoted(text)));
    }

    /// <summary>Writes the report, and what there is to say about it.</summary>
    public void Finish(VerbConsole console)
    {
        if (_count > MostForReport)
        {
            console.Error.WriteLine($"vatwatch: report.html was not written, the log has {_count} readings; wanted at most {MostForReport}. alarms.csv and conditions.csv are whole.");
            return;
        }

        var (from, to) = (_measurements[0].Stamp.Utc, _measurements[^1].Stamp.Utc);
        var record = new VatRecord(_setting.Plan.Definition, _setting.Units, from, to, _measurements, _changes) { Conditions = _looks };
        new ReportWriter(new ReportOptions { Zone = _setting.Zone }).Write(record, Path.Combine(_folder, "report.html"));
    }

    public void Dispose()
    {
        _alarms.Dispose();
        _conditions.Dispose();
    }

    // A vat whose state flickers would fill the memory with looks that no picture can show.
    private void ThinLooks()
    {
        if (_looks.Count < MostLooks)
        {
            return;
        }

        var kept = _looks.Where((_, index) => index % 2 == 0).ToArray();
        _looks.Clear();
        _looks.AddRange(kept);
        _lookEvery = _lookEvery > TimeSpan.Zero ? _lookEvery * 2 : FirstLookEvery;
    }

    private static void Forget<T>(List<T> list)
    {
        list.Clear();
        list.TrimExcess();
    }

    private StreamWriter Open(string name, string header)
    {
        var writer = new StreamWriter(Path.Combine(_folder, name), append: false, Utf8) { NewLine = "\r\n" };
        writer.WriteLine(header);
        return writer;
    }

    private static string Number(double? number) =>
        number is { } value && double.IsFinite(value) ? Math.Round(value, 4).ToString("R") : "";

    private static string Quoted(string text) => $"\"{text.Replace("\"", "\"\"", StringComparison.Ordinal)}\"";
}
