using VatWatch.Calibration;
using VatWatch.Charts.Reports;
using VatWatch.Charts.Traces;
using VatWatch.Conditions;
using VatWatch.Sessions;
using VatWatch.Sessions.Entries;
using VatWatch.Store;

namespace VatWatch.Charts.Life;

/// <summary>A vat over months: its condition when each session began, what it was fed for each kg of yarn, and how its electrodes age. Immutable.</summary>
/// <param name="Sessions">Oldest first.</param>
/// <param name="Calibrations">Of the vat's electrodes, oldest first.</param>
public sealed record VatLife(VatDefinition Vat, DisplayUnits Units, IReadOnlyList<LifeSession> Sessions, IReadOnlyList<DatedCalibration> Calibrations)
{
    /// <summary>More sessions than this are two years of every second day.</summary>
    public const int MostSessions = 400;

    // What a condition rests on: trends want some minutes, the heat balance is not asked.
    private static readonly TimeSpan Look = TimeSpan.FromMinutes(45);

    /// <summary>Reads the newest sessions and all calibrations of a vat.</summary>
    public static VatLife Load(StoreReader reader, VatDefinition vat, DisplayUnits units)
    {
        var sessions = SessionTable.Newest(reader, vat.Id, MostSessions).Reverse().ToArray();
        var life = new List<LifeSession>();
        var since = sessions.Length > 0 ? sessions[0].Started.Utc - StoredRecord.NightBefore : default;
        foreach (var session in sessions)
        {
            var start = session.Started.Utc;
            var end = session.Ended ?? start + StoredRecord.NightBefore;
            var before = reader.Measurements(vat.Id, start - Look, start.AddTicks(1)).ToArray();
            var condition = ConditionTrace.Of(vat, units, before, EntryTable.Between(reader, vat.Id, start - Look, start)) is [.., var last] ? last : null;
            life.Add(new LifeSession(session, condition, SessionTally.Of(EntryTable.Between(reader, vat.Id, since, end.AddTicks(1)))));
            since = end.AddTicks(1);
        }

        return new VatLife(vat, units, life, StoredRecord.Calibrations(reader, vat));
    }

    /// <summary>As a chart and tables; times in <paramref name="zone"/>.</summary>
    public TabledChart Chart(TimeZoneInfo zone) => LifeChart.Of(this, zone);
}

/// <summary>One session in the life of a vat.</summary>
/// <param name="AtStart">The condition of the vat when it began; null when nothing was recorded then.</param>
/// <param name="Tally">Its dips and what was added in it and since the session before.</param>
public sealed record LifeSession(Session Session, VatCondition? AtStart, SessionTally Tally)
{
    /// <summary>How much was added for each kg of dry yarn, g/kg; null without the weight of the yarn or when none was added.</summary>
    public double? GramsPerKilogram(Material material) =>
        Session.Details.YarnGrams is { } yarn && Tally.Added.TryGetValue(material, out var grams) ? grams / (yarn / 1000) : null;
}
