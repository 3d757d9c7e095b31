using VatWatch.Ledger;
using VatWatch.Sessions;
using VatWatch.Sessions.Entries;

namespace VatWatch.Tests.Ledger;

/// <summary>A log book of one vat of 100 L, written by the hour.</summary>
internal sealed class LogBook
{
    public static readonly DateTimeOffset Begin = new(2026, 3, 2, 8, 0, 0, TimeSpan.Zero);
    private readonly List<SessionEntry> _entries = [];

    public VatDefinition Vat { get; init; } = new()
    {
        Id = new("weld-100"),
        Name = "Weld tub",
        VolumeLitres = 100,
        Fibre = Fibre.Cellulose,
        Reducer = ReducingAgent.ThioureaDioxide,
        Temperature = new TemperatureBand(40, 48, 50),
        Probes = [],
    };

    public Dictionary<SessionId, double> Goods { get; } = [];

    public IReadOnlyList<SessionEntry> Entries => _entries;

    public LedgerFacts Facts => Of(_entries);

    public LedgerFacts Of(IReadOnlyCollection<SessionEntry> entries) => new(Vat, entries, Goods, DisplayUnits.Si, (_, _) => 20);

    public LogBook MadeAnew(double hour, double litres) => Write(hour, EntryKind.MadeAnew, entry => entry with { Amount = litres });

    public LogBook Added(double hour, Material material, double amount, double? strength = null) =>
        Write(hour, EntryKind.Added, entry => entry with { Material = material, Amount = amount, Strength = strength });

    public LogBook DrawnOff(double hour, double litres) => Write(hour, EntryKind.DrawnOff, entry => entry with { Amount = litres });

    public LogBook Read(double hour, HandReading reading, double value) => Write(hour, EntryKind.Reading, entry => entry with { Reading = reading, Amount = value });

    public LogBook Saw(double hour, Sign sign, double? seconds = null) => Write(hour, EntryKind.Sign, entry => entry with { Sign = sign, Amount = seconds });

    public LogBook Dip(double hour, string session, double grams, double minutes = 5)
    {
        var id = new SessionId(session);
        Goods[id] = grams;
        return Write(hour, EntryKind.DipIn, entry => entry with { Session = id }).Write(hour + minutes / 60, EntryKind.DipOut, entry => entry with { Session = id });
    }

    public VatBalance At(double hour) => VatLedger.At(Facts, Begin.AddHours(hour));

    private LogBook Write(double hour, EntryKind kind, Func<SessionEntry, SessionEntry> with)
    {
        _entries.Add(with(new SessionEntry
        {
            Id = _entries.Count + 1,
            Vat = Vat.Id,
            Kind = kind,
            At = new Stamp(Begin.AddHours(hour), TimeSpan.FromHours(hour), true),
            By = "Ida",
        }));
        return this;
    }
}
