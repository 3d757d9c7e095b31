using VatWatch.Calibration;
using VatWatch.Charts.Recipes.Panels;
using VatWatch.Charts.Traces;
using VatWatch.Measurements;
using VatWatch.Sessions.Entries;

namespace VatWatch.Charts.Life;

/// <summary>The panels of a vat's life. Each value is a dot: between two sessions nothing is known.</summary>
internal static class LifePanels
{
    /// <summary>Those for which there is anything to show.</summary>
    public static IReadOnlyList<ValuePanel> Of(VatLife life, VatRecord record)
    {
        ProbeTrace[] AtStart(Quantity measures, Func<LifeSession, double?> value) => Dots("at the start of each session", measures, life.Sessions
            .Select(session => (session.Session.Started.Utc, value(session))));

        var margins = AtStart(Quantity.Orp, session => session.AtStart?.Margin?.Millivolts);
        ProbeTrace[] chief =
        [
            .. AtStart(Quantity.Temperature, session => session.AtStart?.TemperatureC),
            .. AtStart(Quantity.Ph, session => session.AtStart?.Ph),
            .. AtStart(Quantity.Orp, session => session.AtStart?.OrpMillivolts),
        ];
        return
        [
            .. ValuePanels.Of(record, chief, margins).Where(panel => panel.Traces.Count > 0).Select(panel => panel with { HatchGaps = false, Weight = 3 }),
            .. Fed(life),
            .. Electrodes(life),
        ];
    }

    private static IEnumerable<ValuePanel> Fed(VatLife life) =>
        from material in (Material[])[Material.SodaAsh, Material.ReducingAgent]
        let dots = Dots($"{material.Name()} for each session", Quantity.Level, life.Sessions.Select(session => (session.Session.Started.Utc, session.GramsPerKilogram(material))))
        where dots.Length > 0
        select new ValuePanel
        {
            Heading = $"{material.Name().Capitalized()} for the yarn",
            // 1 g/kg is 0.016 oz/lb: 16 ounces are a pound.
            Scale = life.Units.IsUs ? new AxisScale("oz/lb", 0.016, 0) : new AxisScale("g/kg", 1, 0),
            Traces = dots,
            HatchGaps = false,
            SmallestSpan = 40,
            Weight = 2,
        };

    private static IEnumerable<ValuePanel> Electrodes(VatLife life)
    {
        foreach (var probe in life.Calibrations.GroupBy(one => one.Probe))
        {
            var slopes = Dots(probe.Key.Value, Quantity.Level, probe.Select(one => (one.Utc, (one.Calibration as PhCalibration)?.Line.SlopePercent)));
            if (slopes.Length > 0)
                yield return Electrode("Slope of the electrode", "%", slopes, 10);
            yield return Electrode("Offset of the electrode", "mV", Dots(probe.Key.Value, Quantity.Level, probe.Select(one => (one.Utc, Offset(one)))), 20);
        }
    }

    private static double? Offset(DatedCalibration dated) => dated.Calibration switch
    {
        PhCalibration ph => ph.Line.OffsetMillivolts,
        OrpCalibration orp => orp.Offset.Millivolts,
        _ => null,
    };

    private static ValuePanel Electrode(string heading, string unit, ProbeTrace[] dots, double span) => new()
    {
        Heading = heading,
        Scale = new AxisScale(unit, 1, 0),
        Traces = dots,
        HatchGaps = false,
        SmallestSpan = span,
        Weight = 2,
    };

    // One trace of what is known; none when nothing is.
    private static ProbeTrace[] Dots(string name, Quantity measures, IEnumerable<(DateTimeOffset Utc, double? Value)> values)
    {
        var id = new ProbeId(name);
        Measurement[] known =
        [
            .. values.Where(one => one.Value is not null).OrderBy(one => one.Utc)
                .Select(one => new Measurement(VatId.Daemon, id, measures, new Stamp(one.Utc, one.Utc - DateTimeOffset.UnixEpoch, true), null, one.Value, Quality.Good, null, null)),
        ];
        return known.Length == 0 ? [] : [ProbeTrace.Made(id, measures, known, isSingle: true)];
    }
}
