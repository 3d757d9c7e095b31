using VatWatch.Charts.Traces;
using VatWatch.Measurements;
using VatWatch.Sessions;
using VatWatch.Sessions.Entries;

namespace VatWatch.Charts.Tests;

/// <summary>
/// A made-up session, the same every time: 8 h at 45 °C and pH 10. ORP stands at −720 mV; a dip of 12 min lifts it by 60 mV within the dip, and it comes back
/// with a time constant of 6 min after the first and 24 min after the third. Dips at 4, 5 and 6 h; soda ash at 1 h, lid off and on, a note.
/// </summary>
internal static class MorningOfDips
{
    public static readonly TimeSpan Length = TimeSpan.FromHours(8);
    public static readonly TimeSpan DipLength = TimeSpan.FromMinutes(12);
    public static readonly double[] DipHours = [4, 5, 6];
    private const double StillMillivolts = -720;
    private const double LiftMillivolts = 60;

    public static Session Session { get; } = new()
    {
        Vat = NightOfWarming.Vat.Id,
        Id = new SessionId("2026-03-06"),
        Started = NightOfWarming.StampAt(TimeSpan.FromHours(3)),
        Ended = NightOfWarming.Start + TimeSpan.FromHours(7.5),
        By = "anyone",
        Details = new SessionDetails(900, Fibre.Protein, "sky", Verdict.Good),
    };

    public static IReadOnlyList<SessionEntry> Entries { get; } =
    [
        .. new[]
        {
            Entry(1, EntryKind.Added) with { Material = Material.SodaAsh, Amount = 100 },
            Entry(3.2, EntryKind.LidOff),
            Entry(4, EntryKind.DipIn), Entry(4.2, EntryKind.DipOut), Entry(5, EntryKind.DipIn), Entry(5.2, EntryKind.DipOut),
            Entry(5.5, EntryKind.Note) with { Text = "<b>a note</b>" },
            Entry(5.6, EntryKind.Added) with { Material = Material.SodaAsh, Amount = 500, Withdrawn = NightOfWarming.Start + Length },
            Entry(6, EntryKind.DipIn), Entry(6.2, EntryKind.DipOut),
            Entry(7.4, EntryKind.LidOn),
        }.Select((entry, i) => entry with { Id = i + 1 }),
    ];

    public static VatRecord Bare(DisplayUnits? units = null) =>
        new(NightOfWarming.Vat, units ?? DisplayUnits.Si, NightOfWarming.Start, NightOfWarming.Start + Length, [.. Measurements()], []);

    public static VatRecord Record(DisplayUnits? units = null)
    {
        var bare = Bare(units);
        return bare with { Session = Session, Entries = Entries, Conditions = ConditionTrace.Of(bare.Vat, bare.Units, bare.Measurements, Entries) };
    }

    public static SessionEntry Entry(double hours, EntryKind kind) => new()
    {
        Id = 0,
        Vat = NightOfWarming.Vat.Id,
        Session = new SessionId("2026-03-06"),
        Kind = kind,
        At = NightOfWarming.StampAt(TimeSpan.FromHours(hours)),
        By = "anyone",
    };

    public static double Orp(double hours)
    {
        var (constants, lift) = (new[] { 0.1, 0.1, 0.4 }, 0.0);
        for (var i = 0; i < DipHours.Length; i++)
        {
            var since = hours - DipHours[i];
            if (since > 0)
                lift += LiftMillivolts * Math.Min(1, since / DipLength.TotalHours) * Math.Exp(-Math.Max(0, since - DipLength.TotalHours) / constants[i]);
        }

        return StillMillivolts + lift;
    }

    private static IEnumerable<Measurement> Measurements()
    {
        var random = new Random(7);
        for (var time = TimeSpan.Zero; time <= Length; time += TimeSpan.FromSeconds(15))
        {
            double Noise(double size) => (random.NextDouble() - 0.5) * size;
            yield return NightOfWarming.Good("liquor", Quantity.Temperature, time, 45 + Noise(0.1));
            yield return NightOfWarming.Good("ph-glass", Quantity.Ph, time, 10 + Noise(0.02));
            yield return NightOfWarming.Good("orp-platinum", Quantity.Orp, time, Orp(time.TotalHours) + Noise(2));
        }
    }
}
