using VatWatch.Ledger;
using VatWatch.Ledger.Doses;
using VatWatch.Nights.Physics;
using VatWatch.Sessions;
using VatWatch.Sessions.Entries;
using VatWatch.Time;
using VatWatch.Vats;

namespace VatWatch.Nights.Scenes;

/// <summary>
/// A vat that a dyer works for weeks: dips by day, water in the evening, soda ash and reducing agent when its probes say so, all of it in the log book as the dyer knows it. Not thread safe.
/// </summary>
internal sealed class DosedVat
{
    private const double OftenMinutes = 3;
    private static readonly DateTimeOffset Begin = new(2026, 3, 2, 8, 0, 0, TimeSpan.Zero);

    private readonly Chance _chance;
    private readonly WorkedVat _vat;
    private readonly VatDefinition _definition;
    private readonly List<SessionEntry> _entries = [];
    private readonly List<(DateTimeOffset At, double Celsius, double Ph, double Millivolts)> _rows = [];
    private readonly Dictionary<SessionId, double> _goods = [];
    private readonly Wander _phWander;
    private readonly Wander _orpWander;
    private readonly double _phOffset;
    private readonly double _phSlope;
    private readonly double _orpOffset;
    private readonly double _tapWater;
    private readonly double _usualC;
    private double _celsius;

    public DosedVat(int seed)
    {
        _chance = new Chance(seed);
        _vat = new WorkedVat(_chance.Fork());
        _phWander = new Wander(_chance.Fork(), _chance.Uniform(0.003, 0.02), _chance.Uniform(2400, 9000));
        _orpWander = new Wander(_chance.Fork(), _chance.Uniform(0.5, 3), _chance.Uniform(2400, 9000));
        (_phOffset, _phSlope, _orpOffset) = (_chance.Uniform(-0.1, 0.1), _chance.Uniform(0.96, 1), _chance.Uniform(-25, 25));
        (_tapWater, _usualC) = (_chance.Uniform(0.001, 0.004), _chance.Uniform(40, 47));
        _celsius = _usualC;
        var isProtein = _chance.Happens(0.3);
        TargetPh = isProtein ? _chance.Uniform(9.2, 9.5) : _chance.Uniform(9.6, 10.1);
        _vat.SetPh(TargetPh + _chance.Uniform(0, 0.15), _celsius);
        _vat.Agent = _vat.FullAgent;
        _vat.Indigo = _vat.Litres * _chance.Uniform(0.8, 3);
        var weak = Math.Round((_vat.MillivoltsAt(0.3) + _orpOffset + _chance.Normal(8)) / 5) * 5;
        _definition = new VatDefinition
        {
            Id = new VatId("woad-tub"),
            Name = "Woad tub",
            VolumeLitres = Math.Round(_vat.Litres * Math.Exp(_chance.Normal(0.05))),
            Fibre = isProtein ? Fibre.Protein : Fibre.Cellulose,
            Reducer = ReducingAgent.ThioureaDioxide,
            Temperature = new TemperatureBand(38, 48, 50),
            Ph = new PhBand(TargetPh - 0.3, TargetPh + 0.3),
            Orp = new OrpLimits(weak, weak + 70, "Ag/AgCl 3 M KCl", 20),
            Probes = [],
        };
        IsLogged = _chance.Happens(0.6);
        if (IsLogged)
        {
            Write(EntryKind.MadeAnew, entry => entry with { Amount = Scale(_vat.Litres, 0.02) });
            Write(EntryKind.Added, entry => entry with { Material = Material.SodaAsh, Amount = Scale(_vat.Carbon * 106 * _vat.Litres, 0.03) });
            Write(EntryKind.Added, entry => entry with { Material = Material.Indigo, Amount = Scale(_vat.Indigo, 0.03), Strength = 1 });
            Write(EntryKind.Added, entry => entry with { Material = Material.ReducingAgent, Amount = Scale(1.3 * _vat.FullAgent * _vat.Litres + 0.5 * _vat.Indigo, 0.03) });
        }
    }

    /// <summary>Whether the log book begins with the vat, and not in the middle of its life.</summary>
    public bool IsLogged { get; }

    public double TargetPh { get; }

    /// <summary>Now, UTC.</summary>
    public DateTimeOffset Now { get; private set; } = Begin;

    public string Story => $"{_vat.Litres:0} L, carbonate {1000 * _vat.Carbon:0.0}, agent {_vat.FullAgent:0.00} g/L{(IsLogged ? "" : ", not logged")}";

    /// <summary>The true vat.</summary>
    public WorkedVat Truth => _vat;

    /// <summary>Doses of a kind that the dyer gave.</summary>
    public int Given(Material material) => _entries.Count(entry => entry.Material == material && entry.At.Utc > Begin.AddHours(1));

    /// <summary>What the watch knows.</summary>
    public LedgerFacts Facts => new(_definition, _entries, _goods, DisplayUnits.Si, Mean);

    /// <summary>A quiet look in the evening.</summary>
    public VatBalance Look()
    {
        Pass(90);
        Watch(20);
        return Balance;
    }

    private VatBalance Balance => VatLedger.At(Facts, Now);

    /// <summary>A day of work: what is short is made up in the morning, then goods are dipped and water replaces what they took. Says of each dose what the watch would have advised.</summary>
    public IEnumerable<AskedDose> Work()
    {
        _celsius = _usualC + _chance.Normal(1.2);
        var thresholds = (_chance.Uniform(0.3, 0.6), _chance.Uniform(-5, 25));
        Watch(24);
        if (_rows[^1].Ph < TargetPh - thresholds.Item1 && Need(Material.SodaAsh, TargetPh) is { } ash)
        {
            yield return Ask(Material.SodaAsh, ash);
            Dose(Material.SodaAsh, ash);
        }

        Watch(30);
        var weak = _definition.Orp!.WeakMillivolts;
        if (_rows[^1].Millivolts > weak + thresholds.Item2 && Need(Material.ReducingAgent, weak - 40) is { } agent)
        {
            yield return Ask(Material.ReducingAgent, agent);
            Dose(Material.ReducingAgent, agent);
        }

        Dip();
        Pass(60 * 24 - (Now - Begin).TotalMinutes % (60 * 24));
    }

    private void Dip()
    {
        var session = new SessionId($"{Now:yyyy-MM-dd}");
        var kilograms = _vat.Litres / _chance.Uniform(25, 60);
        _goods[session] = 1000 * kilograms;
        var dips = _chance.OneOf(0, 2, 3, 4, 6);
        for (var dip = 0; dip < dips; dip++)
        {
            Write(EntryKind.DipIn, entry => entry with { Session = session });
            Pass(5, isOpen: true);
            _vat.Dip(kilograms, dip == 0);
            Write(EntryKind.DipOut, entry => entry with { Session = session });
            Pass(25);
        }

        var missing = _definition.VolumeLitres - _vat.Litres;
        if (missing > 0.03 * _definition.VolumeLitres)
        {
            _vat.Fill(missing, _tapWater);
            Write(EntryKind.Added, entry => entry with { Material = Material.Water, Amount = Scale(missing, 0.05) });
        }
    }

    /// <summary>Grams, as weighed, that bring what the electrode would show without its noise to a value; null where nothing does.</summary>
    private double? Need(Material material, double target)
    {
        var (low, high) = (0.0, (material == Material.SodaAsh ? 8 : 6) * _vat.Litres);
        for (var i = 0; i < 18; i++)
        {
            var middle = (low + high) / 2;
            var tried = _vat.Copy();
            Add(tried, material, middle);
            tried.Settle();
            var isShort = material == Material.SodaAsh ? Shown(tried).Ph < target : Shown(tried).Millivolts > target;
            (low, high) = isShort ? (middle, high) : (low, middle);
        }

        return high < 7.9 * _vat.Litres && low > 0 ? low : null;
    }

    private AskedDose Ask(Material material, double need)
    {
        var (_, celsius, ph, millivolts) = _rows[^1];
        var weak = new WeakVat(Facts, Now, celsius, ph, millivolts, null);
        var balance = Balance;
        return new(material, Given(material), need, material == Material.SodaAsh ? VatDose.SodaAsh(weak, balance, TargetPh) : VatDose.Reducer(weak, balance));
    }

    /// <summary>The dyer's own guess goes in, at times with something else beside it.</summary>
    private void Dose(Material material, double need)
    {
        var grams = Math.Max(1, Math.Round(need * _chance.Uniform(0.5, 1.15)));
        Write(EntryKind.Added, entry => entry with { Material = material, Amount = grams });
        Add(_vat, material, grams * Math.Exp(_chance.Normal(0.03)));
        if (_chance.Happens(0.05))
        {
            Watch(5);
            _vat.Fill(2, _tapWater);
            Write(EntryKind.Added, entry => entry with { Material = Material.Water, Amount = 2 });
        }

        Watch(45);
    }

    private static void Add(WorkedVat vat, Material material, double grams)
    {
        if (material == Material.SodaAsh)
            vat.AddSodaAsh(grams);
        else
            vat.AddAgent(grams);
    }

    /// <summary>Time passes while the probes are written down.</summary>
    private void Watch(double minutes)
    {
        for (var end = Now.AddMinutes(minutes); Now < end;)
        {
            Pass(OftenMinutes);
            var (ph, millivolts) = Shown(_vat);
            _rows.Add((Now, _celsius + _chance.Normal(0.05), Math.Round(ph + _phWander.Value + _chance.Normal(0.005), 2), Math.Round(millivolts + _orpWander.Value + _chance.Normal(0.5), 1)));
        }
    }

    private void Pass(double minutes, bool isOpen = false)
    {
        _vat.Pass(minutes, _celsius, isOpen);
        _phWander.Step(60 * minutes);
        _orpWander.Step(60 * minutes);
        Now += TimeSpan.FromMinutes(minutes);
    }

    private (double Ph, double Millivolts) Shown(WorkedVat vat) => (7 + _phSlope * (vat.Ph(_celsius) - 7) + _phOffset, vat.Millivolts(_celsius) + _orpOffset);

    private double? Mean(Quantity quantity, DateTimeOffset from, DateTimeOffset to)
    {
        var first = _rows.BinarySearch((from, 0, 0, 0), Comparer<(DateTimeOffset At, double, double, double)>.Create((a, b) => a.At.CompareTo(b.At)));
        var rows = _rows.Skip(first < 0 ? ~first : first).TakeWhile(row => row.At < to).ToList();
        return rows.Count == 0 ? null : quantity switch
        {
            Quantity.Temperature => rows.Average(row => row.Celsius),
            Quantity.Ph => rows.Average(row => row.Ph),
            Quantity.Orp => rows.Average(row => row.Millivolts),
            _ => null,
        };
    }

    private double Scale(double amount, double error) => amount * Math.Exp(_chance.Normal(error));

    private void Write(EntryKind kind, Func<SessionEntry, SessionEntry> with) => _entries.Add(with(new SessionEntry
    {
        Id = _entries.Count + 1,
        Vat = _definition.Id,
        Kind = kind,
        At = new Stamp(Now, Now - Begin, true),
        By = "Ida",
    }));
}

/// <summary>A dose that the watch was asked for.</summary>
/// <param name="Material">Of what.</param>
/// <param name="Before">Doses of it that the log book already had.</param>
/// <param name="NeedGrams">What it truly takes, as weighed.</param>
/// <param name="Dose">What the watch said.</param>
internal sealed record AskedDose(Material Material, int Before, double NeedGrams, VatDose Dose);
