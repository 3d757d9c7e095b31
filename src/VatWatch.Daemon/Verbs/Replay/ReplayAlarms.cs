using System.Text.Json;
using VatWatch.Alarms;
using VatWatch.Conditions;
using VatWatch.Daemon.Verbs.Terminal;
using VatWatch.Measurements;
using VatWatch.Pipeline.Replay;

namespace VatWatch.Daemon.Verbs.Replay;

/// <summary>Writes each alarm change as a line, and remembers when alarms were raised.</summary>
internal sealed class ReplayAlarms(TextWriter output, bool json, ReplaySetting setting, IReplayListener? also) : IReplayListener
{
    private readonly List<AlarmChange> _raised = [];

    /// <summary>Changes by which an alarm was raised, in order.</summary>
    public IReadOnlyList<AlarmChange> Raised => _raised;

    /// <summary>Alarm changes.</summary>
    public long Count { get; private set; }

    /// <summary>Time of the first measurement, UTC.</summary>
    public DateTimeOffset? First { get; private set; }

    /// <summary>Time of the last measurement, UTC.</summary>
    public DateTimeOffset? Last { get; private set; }

    public void Observe(Measurement measurement)
    {
        First ??= measurement.Stamp.Utc;
        Last = measurement.Stamp.Utc;
        also?.Observe(measurement);
    }

    public void Observe(VatCondition condition) => also?.Observe(condition);

    public void Observe(AlarmChange change)
    {
        // Nobody acknowledges in a replay.
        if (change.IsReminder)
        {
            return;
        }

        Count++;
        if (change.Status.State == AlarmState.Unacknowledged)
        {
            _raised.Add(change);
        }

        if (json)
        {
            AdviceWriter.WriteJsonLine(output, writer => Write(writer, change));
        }
        else if (!CallsNobody(change))
        {
            output.WriteLine(Line(change));
        }

        also?.Observe(change);
    }

    /// <summary>An alarm that was not on and is held back, or is free again: a program may want it, a reader would lose the others among them.</summary>
    private static bool CallsNobody(AlarmChange change) => (change.Before, change.Status.State) is (AlarmState.Normal, AlarmState.Suppressed) or (AlarmState.Suppressed, AlarmState.Normal);

    private string Line(AlarmChange change)
    {
        var status = change.Status;
        var words = change.Before == AlarmState.Normal || status.State != AlarmState.Normal ? status.Text.In(setting.Units) : "back to normal";
        return $"{WallTime.Clock(change.Stamp.Utc, setting.Zone)}  {status.Alarm}  {status.State.Word()}  {status.Priority.Word()}  {words}";
    }

    private void Write(Utf8JsonWriter writer, AlarmChange change)
    {
        var status = change.Status;
        var (text, value, limit, unit) = status.In(setting.Units);
        writer.WriteString("time", WallTime.Rfc3339(change.Stamp.Utc));
        writer.WriteString("vat", status.Vat.Value);
        writer.WriteString("alarm", status.Alarm.Value);
        writer.WriteString("state", status.State.Word());
        writer.WriteString("before", change.Before.Word());
        writer.WriteString("priority", status.Priority.Word());
        AdviceWriter.WriteNumber(writer, "value", value);
        AdviceWriter.WriteNumber(writer, "limit", limit);
        writer.WriteString("unit", unit);
        writer.WriteString("text", text);
    }
}
