using System.Text;
using VatWatch.Alarms;
using VatWatch.Calibration;
using VatWatch.Conditions;
using VatWatch.Measurements;
using VatWatch.Nights.Scenes;
using VatWatch.Pipeline.Configuration;
using VatWatch.Pipeline.Replay;
using VatWatch.Probes.Serial;
using VatWatch.Probes.Serial.Lines;
using VatWatch.Vats;
using VatWatch.Vats.Configuration;

namespace VatWatch.Nights.Scoring;

/// <summary>An alarm that was raised.</summary>
internal sealed record Raised(DateTimeOffset Time, string Kind, string Text)
{
    /// <summary>When it was over; null while it stands.</summary>
    public DateTimeOffset? Over { get; set; }
}

/// <summary>What the watch said of the time to the limit at one moment, min; all null when it said that it will not be reached.</summary>
internal readonly record struct Said(DateTimeOffset Time, double? Early, double? Middle, double? Late);

/// <summary>What the watch made of a night: the code that <c>vatwatch replay</c> runs, without its files.</summary>
internal sealed class NightReplay : IReplayListener
{
    private static readonly ProbeCatalog Drivers = ProbeCatalog.Of([new SerialBusKind()], [new TextLineDriver()]);

    private readonly List<Raised> _raised = [];
    private readonly List<Raised> _returned = [];
    private readonly List<Said> _said = [];
    private readonly List<(DateTimeOffset Time, DiagnosisKind Kind)> _diagnoses = [];
    private readonly HashSet<DiagnosisKind> _standing = [];
    private double? _liquor;

    private NightReplay()
    {
    }

    public IReadOnlyList<Raised> Raised => _raised;

    /// <summary>Alarms about heat that went back to normal while the reading stood at or above the limit.</summary>
    public IReadOnlyList<Raised> ReturnedHot => _returned;

    /// <summary>Once a minute.</summary>
    public IReadOnlyList<Said> TimeToLimit => _said;

    public IReadOnlyList<(DateTimeOffset Time, DiagnosisKind Kind)> Diagnoses => _diagnoses;

    private double Limit { get; init; }

    /// <summary>Takes the watch through a night.</summary>
    /// <exception cref="InvalidOperationException">The night's configuration or a row was refused: a fault of the maker.</exception>
    public static NightReplay Of(MadeNight night)
    {
        var faults = new ConfigFaults();
        var root = ConfigFile.Parse(Encoding.UTF8.GetBytes(night.Configuration), faults);
        var configuration = root is null ? null : new WatchConfigurationReader(Drivers).Read(root);
        root?.Done();
        if (configuration is null || faults.All.Count > 0)
            throw new InvalidOperationException($"seed {night.Seed}: {string.Join("; ", faults.All)}\n{night.Configuration}");

        var heard = new NightReplay { Limit = night.Truth.Limit };
        var watch = new ReplayWatch(configuration.Vats[0], configuration.Units, new CalibrationCache(), heard);
        watch.Take(new RecordedEntries(TimeZoneInfo.Utc).Read(
            new StringReader("time,entry,value\n" + string.Join('\n', night.Entries.Select(entry => $"{entry.Time:O},{entry.Entry},{entry.Value}"))),
            fault => throw new InvalidOperationException($"seed {night.Seed}, entries, {fault}")));
        foreach (var row in night.Rows)
        {
            if (watch.Take(row) is { } refused)
                throw new InvalidOperationException($"seed {night.Seed}, line {row.Line}: {refused}");
        }

        watch.End();
        return heard;
    }

    public void Observe(Measurement measurement)
    {
        if (measurement.Quantity == Quantity.Temperature)
            _liquor = measurement.GoodValue ?? _liquor;
    }

    public void Observe(VatCondition condition)
    {
        foreach (var one in condition.Diagnoses)
        {
            if (_standing.Add(one.Kind))
                _diagnoses.Add((condition.Stamp.Utc, one.Kind));
        }

        _standing.RemoveWhere(kind => condition.Diagnoses.All(one => one.Kind != kind));
        if (condition.Stamp.Utc.Second == 0)
        {
            var ahead = condition.TimeToLimit;
            _said.Add(new Said(condition.Stamp.Utc, ahead?.Early.TotalMinutes, ahead?.Middle.TotalMinutes, ahead?.Late?.TotalMinutes));
        }
    }

    public void Observe(AlarmChange change)
    {
        var (name, status) = (change.Status.Alarm, change.Status);
        var isWorse = change.Announce && !change.IsReminder;
        if (change.Before == status.State && !isWorse)
            return;
        var seen = new Raised(change.Stamp.Utc, name.Kind, status.Text.ToString());
        if (status.State == AlarmState.Unacknowledged)
            _raised.Add(seen);
        else if (_raised.FindLast(one => one.Kind == name.Kind) is { Over: null } standing)
            standing.Over = seen.Time;
        if (status.State is AlarmState.ReturnedUnacknowledged or AlarmState.Normal && _liquor >= Limit && name.Kind is AlarmNames.Overheat or AlarmNames.HeatingFault)
            _returned.Add(seen);
    }
}
