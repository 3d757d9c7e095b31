using VatWatch.Ledger.Doses;
using VatWatch.Science.Dosing;
using VatWatch.Sessions;
using VatWatch.Sessions.Entries;

namespace VatWatch.Ledger;

/// <summary>
/// What went into a vat and came out of it, from its log book alone: made again from all entries each time, so that an entry that is written late or taken back changes the balance as
/// if it had always, or never, been there. Nothing is forgotten by age; a vat that is made anew begins again.
/// </summary>
public sealed class VatLedger
{
    /// <summary>The air and the warmth of a vat that nobody touches are added up in steps of this.</summary>
    private static readonly TimeSpan LongestStep = TimeSpan.FromDays(1);

    /// <summary>Probes are read over so long before now.</summary>
    private static readonly TimeSpan Fresh = TimeSpan.FromMinutes(15);

    /// <summary>Air of a dip holds the ORP up so long: it says little of the agent meanwhile.</summary>
    private static readonly TimeSpan DipsAir = TimeSpan.FromHours(1);

    private readonly LedgerFacts _facts;
    private readonly LiquorSteps _liquor;
    private readonly LedgerNotes _notes;
    private readonly List<(SessionEntry Entry, VatBalance Before)> _walked = [];
    private DateTimeOffset? _at;
    private bool _lidOff;
    private SessionEntry? _in;
    private (SessionId? Session, double Grams, GoodsKind Kind)? _goods;
    private SessionEntry? _out;

    private VatLedger(LedgerFacts facts)
    {
        _facts = facts;
        _liquor = new LiquorSteps(facts.Vat, facts.Reducer);
        _notes = new LedgerNotes(facts);
    }

    /// <summary>The balance now.</summary>
    /// <param name="facts">What it is made from.</param>
    /// <param name="now">Until when, UTC.</param>
    public static VatBalance At(LedgerFacts facts, DateTimeOffset now) => History(facts, now)[^1];

    /// <summary>The balance after each entry and now, oldest first; the last alone says what it rests on and what past doses teach.</summary>
    public static IReadOnlyList<VatBalance> History(LedgerFacts facts, DateTimeOffset now)
    {
        return new VatLedger(facts).Run(now);
    }

    /// <summary>A ledger that has gone through its log book and goes on from there with <see cref="After"/>.</summary>
    /// <param name="facts">What it is made from.</param>
    /// <param name="until">Until when, UTC; what was written later is left out.</param>
    public static VatLedger Through(LedgerFacts facts, DateTimeOffset until)
    {
        var ledger = new VatLedger(facts);
        foreach (var entry in facts.Standing(until))
        {
            ledger.After(entry);
        }

        return ledger;
    }

    /// <summary>The balance after one more entry, which is not older than the last; without what it rests on and what past doses teach.</summary>
    public VatBalance After(SessionEntry entry)
    {
        var at = entry.At.Utc;
        Pass(_at, at);
        _at = at;
        _walked.Add((entry, Balance(at)));
        Take(entry);
        return Balance(at);
    }

    private List<VatBalance> Run(DateTimeOffset now)
    {
        List<VatBalance> history = [.. _facts.Standing(now).Select(After)];
        Pass(_at, now);
        history.Add(Last(now));
        return history;
    }

    /// <summary>The balance now, with what its lines rest on and what past doses teach of the next.</summary>
    private VatBalance Last(DateTimeOffset now)
    {
        var balance = Balance(now);
        var (sodaAsh, reducer) = (LearnedDoses.Of(_facts, _walked, balance, DoseKind.SodaAsh), LearnedDoses.Of(_facts, _walked, balance, DoseKind.Reducer));
        ReadProbes(now, reducer);
        var seen = Balance(now);
        return balance with
        {
            Liquor = balance.Liquor with { RestsOn = _notes.Liquor },
            Indigo = balance.Indigo with { RestsOn = _notes.Indigo(_liquor.Indigo / Math.Max(1e-3, _liquor.Litres)) },
            Alkalinity = seen.Alkalinity with { RestsOn = [.. _notes.Alkalinity, .. LedgerNotes.Learned("soda ash", sodaAsh)] },
            Carbonate = balance.Carbonate with { RestsOn = _notes.Carbonate },
            Reducer = seen.Reducer with { RestsOn = [.. _notes.Reducer, .. LedgerNotes.Learned("reducing agent", reducer)] },
            SodaAshFactor = sodaAsh,
            ReducerFactor = reducer,
        };
    }

    /// <summary>
    /// What the probes show narrows alkali and reducing agent. Only of the balance now: the carbonate that doses go by is the log book's alone, as it was when they were learned from.
    /// </summary>
    private void ReadProbes(DateTimeOffset now, DoseFactor reducer)
    {
        double? Lately(Quantity quantity) => _facts.Mean(quantity, now - Fresh, now);

        if (Lately(Quantity.Temperature) is not { } warmthC)
        {
            return;
        }

        if (Lately(Quantity.Ph) is { } ph)
        {
            _liquor.ReadPh(ph, LedgerConstants.ElectrodePh, warmthC);
            _notes.Probe("pH", $"{ph:0.0#}");
        }

        var isStirredUp = _in is not null || (_out is { } last && now - last.At.Utc < DipsAir);
        if (!isStirredUp && Lately(Quantity.Orp) is { } orp && _liquor.AgentAt(orp, warmthC) is { } grams)
        {
            _liquor.ReadAgent(grams * reducer.Times, reducer.Widen(LiquorSteps.OrpSigma(_facts.Vat, orp)).LogSigma);
            _notes.Probe("ORP", $"{orp:0} mV");
        }
    }

    private void Pass(DateTimeOffset? from, DateTimeOffset to)
    {
        for (var at = from ?? to; at < to;)
        {
            var next = to - at > LongestStep ? at + LongestStep : to;
            _liquor.Pass(next - at, _facts.WarmthC(at, next) ?? LedgerConstants.RoomC, _lidOff, _in is not null);
            at = next;
        }
    }

    private void Take(SessionEntry entry)
    {
        switch (entry.Kind)
        {
            case EntryKind.MadeAnew:
                _liquor.MakeAnew(entry.Amount ?? _facts.Vat.VolumeLitres);
                _notes.MakeAnew(entry);
                (_in, _out) = (null, null);
                break;
            case EntryKind.Added when entry is { Material: { } material, Amount: { } amount }:
                _liquor.Add(material, amount, entry.Strength);
                _notes.Add(entry);
                break;
            case EntryKind.DrawnOff when entry.Amount is { } litres:
                _liquor.DrawOff(litres);
                _notes.DrawOff(entry);
                break;
            case EntryKind.Goods when entry.Amount is { } grams:
                _goods = (entry.Session, grams, entry.Goods ?? GoodsKind.Yarn);
                break;
            case EntryKind.DipIn:
                DipIn(entry);
                break;
            case EntryKind.DipOut when _in is { } began:
                DipOut(began, entry);
                break;
            case EntryKind.LidOff or EntryKind.LidOn:
                _lidOff = entry.Kind == EntryKind.LidOff;
                break;
            case EntryKind.Reading when entry is { Reading: { } reading, Amount: { } value } && _liquor.Read(reading, value, WarmthAt(entry)):
                _notes.Read(entry);
                break;
        }
    }

    private void DipIn(SessionEntry entry)
    {
        // Goods of another day come fresh: what the last ones carried is gone with them.
        if (_in is null && _out is { } last && last.Session == entry.Session && entry.At.Utc - last.At.Utc <= SessionRules.Forgotten)
        {
            _liquor.CarryBack();
        }

        _in = entry;
    }

    private void DipOut(SessionEntry began, SessionEntry entry)
    {
        var (grams, kind, weighed) = GoodsOf(entry);
        var before = _liquor.Indigo;
        _liquor.Dip(grams / 1000, kind, weighed, entry.At.Utc - began.At.Utc);
        _notes.Dip(before - _liquor.Indigo, weighed);
        (_in, _out) = (null, entry);
    }

    private (double Grams, GoodsKind Kind, bool Weighed) GoodsOf(SessionEntry entry)
    {
        var kind = _goods is { } last && last.Session == entry.Session ? last.Kind : GoodsKind.Yarn;
        return _goods is { } said && said.Session == entry.Session ? (said.Grams, kind, true)
            : entry.Session is { } session && _facts.Goods.TryGetValue(session, out var grams) ? (grams, kind, true)
            : (1000 * _facts.Vat.VolumeLitres / LedgerConstants.UsualLiquorRatio, kind, false);
    }

    private double WarmthAt(SessionEntry entry) => _facts.WarmthC(entry.At.Utc - TimeSpan.FromMinutes(10), entry.At.Utc + TimeSpan.FromMinutes(10)) ?? LedgerConstants.RoomC;

    private VatBalance Balance(DateTimeOffset at)
    {
        var litres = Math.Max(1e-3, _liquor.Litres);
        return new(
            at,
            Holding.Of(_liquor.Litres, _liquor.Sigma(LiquorSteps.Volume), "L", []),
            Holding.Of(_liquor.Indigo, _liquor.Sigma(LiquorSteps.Dye), "g", []),
            Holding.Of(1000 * _liquor.Equivalents / litres, 1000 * _liquor.Sigma(LiquorSteps.Alkali) / litres, "meq/L", []),
            Holding.Of(1000 * _liquor.CarbonateMoles / litres, 1000 * _liquor.Sigma(LiquorSteps.Carbonate) / litres, "mmol/L", []),
            Holding.Of(_liquor.ReducerGrams, _liquor.Sigma(LiquorSteps.Agent), "g", []));
    }
}
