using VatWatch.Conditions.Liquor;
using VatWatch.Measurements;
using VatWatch.Science.Carbonate.SodaAsh;
using VatWatch.Science.Electrodes;

namespace VatWatch.Conditions.Reduction;

/// <summary>The chemical half of a vat's condition: which ORP and pH count, trend, transient, margin and distance from good days. Not thread safe.</summary>
internal sealed class ReductionAssessor
{
    private readonly VatDefinition _vat;
    private readonly NewestValue _ph;
    private readonly NewestValue _orp;
    private readonly OrpTracker _tracker;
    private readonly ReferenceElectrode? _reference;
    private readonly SlowDrift _drift = new();
    private ProbeId? _followed;
    private TimeSpan? _coldSince;
    private (double? Orp, double? Ph, double? LiquorC, ReductionMargin? Margin, double? PhWhenWarm) _bath;

    public ReductionAssessor(VatDefinition vat)
    {
        _vat = vat;
        _ph = new NewestValue(vat, Quantity.Ph);
        _orp = new NewestValue(vat, Quantity.Orp);
        _tracker = new OrpTracker(vat);
        _reference = ReferenceElectrode.TryParse(vat.Orp?.Reference, out var known) ? known : null;
    }

    /// <summary>What the vat shows on its good days.</summary>
    public GoodBaseline? Baseline { get; set; }

    public void Note(VatAct act)
    {
        _tracker.Note(act.Kind, act.At);
        if (act.Kind is not (VatActKind.HeaterOn or VatActKind.HeaterOff))
        {
            _drift.Clear();
        }
    }

    public void Accept(Measurement measurement)
    {
        if (measurement.Quantity == Quantity.Ph)
        {
            _ph.Accept(measurement);
            return;
        }

        _orp.Accept(measurement);
        if (measurement.GoodValue is not { } millivolts)
        {
            return;
        }

        // Two electrodes differ by tens of millivolts: the trend is that of one.
        if (_followed is not { } followed || (followed != measurement.Probe && _orp.Reliable(measurement.Stamp, followed) is null))
        {
            if (_followed is not null)
            {
                _tracker.Clear();
            }

            _followed = measurement.Probe;
        }

        if (_followed == measurement.Probe)
        {
            _tracker.Add(measurement.Stamp, millivolts);
        }
    }

    /// <summary>What is known at <paramref name="now"/>; <paramref name="coldSince"/> is when something cold last went in.</summary>
    public ReductionSnapshot Evaluate(Stamp now, double? liquorC, TimeSpan? coldSince, FrozenProbes frozen)
    {
        if (coldSince is { } cold && coldSince != _coldSince)
        {
            _tracker.Note(VatActKind.Dip, now.Plus(cold - now.Monotonic));
        }

        _coldSince = coldSince;
        _tracker.Forget(now.Monotonic);
        var (orp, noOrp) = Usable(_orp, (_followed is { } id ? _orp.Reliable(now, id) : null) ?? _orp.Reliable(now), "ORP", now, frozen);
        var (ph, noPh) = Usable(_ph, _ph.Reliable(now), "pH", now, frozen);
        var transient = _tracker.Transient;
        FollowDrift(now.Monotonic, orp, ph, liquorC, transient.Since is not null);
        if (_bath.Orp != orp || _bath.Ph != ph || _bath.LiquorC != liquorC)
        {
            var whenWarm = ph is { } shown && liquorC is { } at ? UsedBath.PhAt(shown, at, (_vat.Temperature.LowC + _vat.Temperature.HighC) / 2) : (double?)null;
            _bath = (orp, ph, liquorC, ReductionMargin.Of(_vat, _reference, orp, ph, liquorC), whenWarm);
        }

        return new ReductionSnapshot
        {
            Ph = ph,
            PhWhenWarm = _bath.PhWhenWarm,
            NoPh = noPh,
            OrpMillivolts = orp,
            NoOrp = noOrp,
            Trend = orp is null ? null : _tracker.Trend,
            Resting = transient.Since is { } since && orp is { } level
                ? new RestingFrom(now.Monotonic - since, now.Monotonic - transient.FirstSince, transient.Before, transient.IsRecovering(level))
                : null,
            Margin = _bath.Margin,
            FromGoodDays = Baseline is { } baseline && orp is { } o && ph is { } p and >= 0 and <= 14 && liquorC is { } c and > 0 and < 100 ? baseline.DistanceOf(o, p, c) : null,
            Recoveries = _tracker.Recoveries.All,
            Drift = _drift.Found is { } drift
                ? new Diagnosis(DiagnosisKind.ElectrodeDrift, new($"ORP has risen by {drift.PerHour:0} mV/h for hours, slowly and evenly, while pH and temperature stood still: the electrode may drift. Rinse it and try it in a check solution before you sharpen."))
                {
                    Probe = _followed,
                    Since = now.Plus(drift.Since - now.Monotonic),
                }
                : null,
            RunningOut = _tracker.Recoveries.RunningOut(_vat.Orp?.WeakMillivolts),
        };
    }

    private void FollowDrift(TimeSpan now, double? orp, double? ph, double? liquorC, bool isTransient)
    {
        if (orp is not { } millivolts)
        {
            _drift.Clear();
        }
        else if (!isTransient)
        {
            _drift.Add(now, millivolts, ph, liquorC);
        }
    }

    private static (double? Value, string? WhyNot) Usable(NewestValue newest, Measurement? reliable, string what, Stamp now, FrozenProbes frozen)
    {
        if (!newest.IsWatched)
        {
            return (null, null);
        }

        if (reliable is null)
        {
            return (null, $"no usable {what}: {newest.WhyNot(now)}");
        }

        return frozen.Holds(reliable.Probe) ? (null, $"no usable {what}: probe {reliable.Probe} repeats one value") : (reliable.Value, null);
    }
}
