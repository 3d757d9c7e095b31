using VatWatch.Sessions;
using VatWatch.Sessions.Entries;

namespace VatWatch.Ledger;

/// <summary>
/// What went into a vat and came out of it, from its log book alone: made again from all entries each time, so that an entry that is written late or taken back changes the balance as
/// if it had always, or never, been there. Nothing is forgotten by age; a vat that is made anew begins again.
/// </summary>
public sealed class VatLedger
{
    /// <summary>Half-width of a range of 80 % in standard deviations.</summary>
    private const double RangeSigmas = 1.2816;

    /// <summary>The air and the warmth of a vat that nobody touches are added up in steps of this.</summary>
    private static readonly TimeSpan LongestStep = TimeSpan.FromDays(1);

    private readonly LedgerFacts _facts;
    private readonly LiquorSteps _liquor;
    private readonly LedgerNotes _notes;
    private readonly List<VatBalance> _history = [];
    private bool _lidOff;
    private SessionEntry? _in;
    private (SessionId? Session, double Grams, GoodsKind Kind)? _goods;
    private bool _goodsAreOut;

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

    /// <summary>The balance after each entry and now, oldest first.</summary>
    public static IReadOnlyList<VatBalance> History(LedgerFacts facts, DateTimeOffset now)
    {
        ArgumentNullException.ThrowIfNull(facts);
        return new VatLedger(facts).Run(now);
    }

    private List<VatBalance> Run(DateTimeOffset now)
    {
        DateTimeOffset? at = null;
        foreach (var entry in _facts.Standing(now))
        {
            Pass(at, entry.At.Utc);
            at = entry.At.Utc;
            Take(entry);
            _history.Add(Balance(at.Value));
        }

        Pass(at, now);
        _history.Add(Balance(now));
        return _history;
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
                (_in, _goodsAreOut) = (null, false);
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
        if (_in is null && _goodsAreOut)
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
        (_in, _goodsAreOut) = (null, true);
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
            Holding(_liquor.Litres, _liquor.Sigma(LiquorSteps.Volume), "L", _notes.Liquor),
            Holding(_liquor.Indigo, _liquor.Sigma(LiquorSteps.Dye), "g", _notes.Indigo(_liquor.Indigo / litres)),
            Holding(1000 * _liquor.Equivalents / litres, 1000 * _liquor.Sigma(LiquorSteps.Alkali) / litres, "meq/L", _notes.Alkalinity),
            Holding(_liquor.ReducerGrams, _liquor.Sigma(LiquorSteps.Agent), "g", _notes.Reducer));
    }

    private static Holding Holding(double value, double sigma, string unit, IReadOnlyList<string> restsOn) =>
        new(Math.Max(0, value - RangeSigmas * sigma), value, value + RangeSigmas * sigma, unit, restsOn);
}
