using VatWatch.Conditions;
using VatWatch.Nights.Scenes;

namespace VatWatch.Nights.Scoring;

/// <summary>Every figure, and which night counts in which. Not thread safe.</summary>
internal sealed class Scoreboard
{
    /// <summary>Forecasts taken from each way to the limit, the same number from each quarter.</summary>
    private const int Looks = 16;

    private readonly Figure _told = Figure.Share("runaway: overheat within 15 s of the reading", 1);
    private readonly Figure _lead = Figure.Median("runaway: lead before the limit, median", "at least 30 min", minutes => minutes >= 30, "min");
    private readonly Figure _shortest = Figure.Least("runaway: lead, shortest", "at least 5 min", minutes => minutes >= 5, "min");
    private readonly Figure _hot = Figure.Rate("runaway: back to normal at or above the limit, a night", 0);
    private readonly Figure _begun = Figure.Share("begun, heater dead or probe in air: within 40 min", 1);
    private readonly Figure _cools = Figure.Share("heater fails in the band: told as it leaves it", 1);
    private readonly Figure _firstMedian = Figure.Median("healthy first night: alarms, median", "at most 1", count => count <= 1, "");
    private readonly Figure _first = Figure.Rate("healthy first night: alarms, mean", 1);
    private readonly Figure _later = Figure.Rate("healthy from the second night: alarms, mean", 0.15);
    private readonly Figure _coarse = Figure.Rate("healthy with a coarse probe: alarms, mean", 0.2);
    private readonly Figure _still = Figure.Rate("vat that stands still: forecasts of the limit", 0);
    private readonly Figure[] _bands =
    [
        Figure.ShareWithin("band holds, last quarter of the way", 0.88, 0.93),
        Figure.ShareWithin("band holds, third quarter", 0.88, 0.93),
        Figure.ShareWithin("band holds, second quarter", 0.88, 0.93),
        Figure.ShareWithin("band holds, first quarter", 0.88, 0.93),
    ];

    private readonly Figure _given = Figure.Share("second half of the way: moments with a forecast", 0.95);
    private readonly Figure _rise = Figure.Share("ORP rises by 20 mV/h: told within 75 min", 1);
    private readonly Figure _dips = Figure.Rate("dips taken for decay, a day", 0);
    private readonly Figure _weak = Figure.Share("depletion: weak before oxidised", 1);
    private readonly Figure _drift = Figure.Share("electrode drifts: not called oxidised", 1);
    private readonly Figure _frozen = Figure.Share("frozen while heating: told before the limit", 1);
    private readonly Figure _welded = Figure.Share("relay welded: told within 10 min of the command", 1);
    private readonly Figure _obeys = Figure.Rate("relay obeys: taken for welded, a night", 0);
    private readonly Figure _half = Figure.Share("heater at half power: told within 1 h", 1);
    private readonly Figure _lid = Figure.Share("lid left off: told within 3 h", 0.9);
    private readonly Figure _out = Figure.Share("probe falls out: told within 10 min", 1);
    private readonly Figure _topUp = Figure.Rate("cold top-up: taken for a probe in air", 0);

    public IReadOnlyList<Figure> Figures =>
    [
        _told, _lead, _shortest, _hot, _begun, _cools, _firstMedian, _first, _later, _coarse, _still, .. _bands, _given, _rise, _dips, _weak, _drift, _frozen, _welded,
        _obeys, _half, _lid, _out, _topUp,
    ];

    public void Add(MadeNight night, NightReplay heard)
    {
        CountHealthy(night, heard);
        if (night.Truth.ReadingCrosses is not null)
            JudgeRunaway(night, heard);
        switch (night.Kind)
        {
            case NightKind.HeaterFails or NightKind.ProbeInAir when night.Truth.Begun:
                Within(_begun, night, heard, 40, AlarmNames.HeatingFault, AlarmNames.ProbeFault, "warming-fault", "ready-late");
                break;
            case NightKind.BreakerAtNight:
                JudgeCooling(night, heard);
                break;
            case NightKind.StandsStill:
                Count(_still, night, heard, AlarmNames.OverheatForecast);
                break;
            case NightKind.RedoxRises:
                Within(_rise, night, heard, 75, night.Truth.RiseBegins, AlarmNames.RedoxRising);
                break;
            case NightKind.DipDay:
                Count(_dips, night, heard, AlarmNames.RedoxRising, AlarmNames.RedoxWeak, AlarmNames.Oxidised);
                break;
            case NightKind.Depletion:
                JudgeDepletion(night, heard);
                break;
            case NightKind.ElectrodeDrift:
                var called = First(night, heard, AlarmNames.Oxidised);
                Add(_drift, night, called is null, () => $"oxidised at {At(called!.Time)}");
                break;
            case NightKind.FrozenHeating:
                var early = First(night, heard, AlarmNames.ProbeFault, AlarmNames.HeatingFault, AlarmNames.ProbeSilent, "warming-fault");
                Add(_frozen, night, early?.Time <= night.Truth.LiquorCrosses, () => $"frozen {At(night.Truth.Fault)}, limit {At(night.Truth.LiquorCrosses)}, told {Tell(early)}");
                break;
            case NightKind.RelayWelded:
                JudgeWelded(night, heard);
                break;
            case NightKind.HalfPower:
                Within(_half, night, heard, 60, AlarmNames.HeatingFault, "warming-fault", "ready-late");
                break;
            case NightKind.LidLeftOff:
                Within(_lid, night, heard, 180, AlarmNames.HeatingFault, "warming-fault");
                break;
            case NightKind.ProbeFallsOut:
                Within(_out, night, heard, 10, AlarmNames.HeatingFault, AlarmNames.ProbeFault);
                break;
            case NightKind.TopUp:
                var air = heard.Diagnoses.FirstOrDefault(one => one.Time >= night.Truth.Fault && one.Kind == DiagnosisKind.ProbeOutOfLiquor);
                _topUp.Add(new Case(night.Seed, night.Kind.ToString(), air.Time == default ? 0 : 1, air.Time == default ? null : $"poured {At(night.Truth.Fault)}, in air {At(air.Time)}"));
                break;
        }
    }

    private void CountHealthy(MadeNight night, NightReplay heard)
    {
        foreach (var span in night.Truth.Nights.Where(span => span.Healthy))
        {
            var raised = heard.Raised.Where(one => one.Time >= span.From && one.Time <= span.To && !(one.Kind == AlarmNames.OverheatForecast && one.Time <= span.OffByHand)).ToList();
            var words = raised.Count == 0 ? null : $"night {span.Index + 1}: " + string.Join(", ", raised.Select(one => $"{one.Kind} {At(one.Time)}"));
            var one = new Case(night.Seed, night.Kind.ToString(), raised.Count, words);
            if (night.Truth.Coarse)
                _coarse.Add(one);
            else if (span.Index > 0)
                _later.Add(one);
            else
            {
                _first.Add(one);
                _firstMedian.Add(one with { FallsShort = null });
            }
        }
    }

    private void JudgeRunaway(MadeNight night, NightReplay heard)
    {
        var truth = night.Truth;
        var crosses = truth.ReadingCrosses!.Value;
        var overheat = heard.Raised.FirstOrDefault(one => one.Kind == AlarmNames.Overheat && one.Time >= truth.HeatingSince);
        Add(_told, night, overheat?.Time <= crosses.AddSeconds(15), () => $"crosses {At(crosses)}, told {Tell(overheat)}");

        var hot = heard.ReturnedHot.Where(one => one.Time >= crosses).ToList();
        _hot.Add(new Case(night.Seed, night.Kind.ToString(), hot.Count, hot.Count == 0 ? null : string.Join(", ", hot.Select(one => $"{one.Kind} {At(one.Time)}: {one.Text}"))));

        var warning = heard.Raised.FirstOrDefault(one => one.Time >= truth.HeatingSince && (one.Kind == AlarmNames.OverheatForecast || (one.Kind == AlarmNames.HeatingFault && one.Time >= truth.Knowable)));
        var lead = warning is null || warning.Time > crosses ? 0 : (crosses - warning.Time).TotalMinutes;
        var possible = (crosses - truth.Knowable!.Value).TotalMinutes;
        var words = $"lead {lead:0} min of {possible:0}";
        if (possible >= 30)
            _lead.Add(new Case(night.Seed, night.Kind.ToString(), lead, lead >= 30 ? null : words));
        if (possible >= 5)
            _shortest.Add(new Case(night.Seed, night.Kind.ToString(), lead, lead >= 5 ? null : words, night.Truth.Untellable));
        JudgeBands(night, heard, crosses);
    }

    private void JudgeBands(MadeNight night, NightReplay heard, DateTimeOffset crosses)
    {
        var way = (crosses - night.Truth.HeatingSince!.Value).TotalMinutes;
        var byMinute = heard.TimeToLimit.ToDictionary(said => said.Time);
        for (var look = 0; look < Looks; look++)
        {
            var left = way * (look + 0.5) / Looks;
            var moment = crosses.AddMinutes(-left);
            var minute = new DateTimeOffset(moment.Ticks - moment.Ticks % TimeSpan.TicksPerMinute, TimeSpan.Zero);
            if (!byMinute.TryGetValue(minute, out var said))
                continue;
            var actual = (crosses - minute).TotalMinutes;
            var given = said.Middle is not null;
            if (look < Looks / 2 && minute > night.Truth.Knowable)
                _given.Add(new Case(night.Seed, night.Kind.ToString(), given ? 1 : 0, given ? null : $"none {actual:0} min before"));
            if (!given)
                continue;
            var holds = said.Early <= actual && (said.Late is not { } late || actual <= late);
            _bands[look * 4 / Looks].Add(new Case(night.Seed, night.Kind.ToString(), holds ? 1 : 0, holds ? null : $"{actual:0} min before: said {said.Early:0} to {said.Late:0} min"));
        }
    }

    private void JudgeCooling(MadeNight night, NightReplay heard)
    {
        var told = First(night, heard, AlarmNames.HeatingFault, AlarmNames.Cold, "warming-fault", "ready-late");
        Add(_cools, night, told?.Time <= night.Truth.LeavesBand?.AddMinutes(30), () => $"breaker {At(night.Truth.Fault)}, leaves the band {At(night.Truth.LeavesBand)}, told {Tell(told)}");
    }

    private void JudgeDepletion(MadeNight night, NightReplay heard)
    {
        var (weak, oxidised) = (First(night, heard, AlarmNames.RedoxWeak), First(night, heard, AlarmNames.Oxidised));
        Add(_weak, night, weak is not null && (oxidised is null || weak.Time < oxidised.Time), () => $"weak {Tell(weak)}, oxidised {Tell(oxidised)}");
    }

    /// <summary>The contact welded while it was to be closed: what was told of it before the command, and stands, is right.</summary>
    private void JudgeWelded(MadeNight night, NightReplay heard)
    {
        var told = heard.Raised.FirstOrDefault(one => one.Time >= night.Truth.HeatingSince && !(one.Over < night.Truth.Fault) && one.Kind is AlarmNames.HeatingFault or AlarmNames.OverheatForecast);
        var early = heard.Diagnoses.FirstOrDefault(one => one.Kind == DiagnosisKind.HeaterStuckOn && one.Time < night.Truth.HeatingSince);
        _obeys.Add(new Case(night.Seed, night.Kind.ToString(), early.Time == default ? 0 : 1, early.Time == default ? null : $"at {At(early.Time)}"));
        Add(_welded, night, told?.Time <= night.Truth.Fault!.Value.AddMinutes(10), () => $"since {At(night.Truth.Fault)}, told {Tell(told)}");
    }

    private static void Within(Figure figure, MadeNight night, NightReplay heard, double minutes, params string[] kinds) =>
        Within(figure, night, heard, minutes, night.Truth.Fault, kinds);

    private static void Within(Figure figure, MadeNight night, NightReplay heard, double minutes, DateTimeOffset? since, params string[] kinds)
    {
        var told = First(night, heard, kinds);
        Add(figure, night, since is not null && told?.Time <= since.Value.AddMinutes(minutes), () => $"since {At(since)}, told {Tell(told)}", night.Truth.Untellable);
    }

    private static void Count(Figure figure, MadeNight night, NightReplay heard, params string[] kinds)
    {
        var raised = heard.Raised.Where(one => kinds.Contains(one.Kind)).ToList();
        figure.Add(new Case(night.Seed, night.Kind.ToString(), raised.Count, raised.Count == 0 ? null : string.Join(", ", raised.Select(Tell))));
    }

    /// <summary>The first alarm of these kinds since the fault; one that stood before it says nothing of it.</summary>
    private static Raised? First(MadeNight night, NightReplay heard, params string[] kinds) =>
        heard.Raised.FirstOrDefault(one => one.Time >= night.Truth.Fault && kinds.Contains(one.Kind));

    private static void Add(Figure figure, MadeNight night, bool holds, Func<string> seen, string? untellable = null) =>
        figure.Add(new Case(night.Seed, night.Kind.ToString(), holds ? 1 : 0, holds ? null : seen(), untellable));

    private static string Tell(Raised? raised) => raised is null ? "never" : $"{raised.Kind} {At(raised.Time)}";

    private static string At(DateTimeOffset? time) => time is { } known ? $"{known:dd HH:mm}" : "never";
}
