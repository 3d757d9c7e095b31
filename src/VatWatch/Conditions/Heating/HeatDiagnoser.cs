using VatWatch.Conditions.Heating.Heater;
using VatWatch.Conditions.Heating.Signals;

namespace VatWatch.Conditions.Heating;

/// <summary>
/// Says what seems wrong with a vat's heating. Signatures and times as in the heat-balance reference, "diagnostics"; its thresholds are
/// engineering choices. Not thread safe; one per vat.
/// </summary>
internal sealed class HeatDiagnoser(VatDefinition vat, HeatTracker tracker)
{
    private const double RisingKPerHour = 0.3;
    private const double SureDeviations = 1.645;

    private static readonly TimeSpan ShownFor = TimeSpan.FromMinutes(30);

    /// <summary>A relay opens within a second; a slope that lies wholly after the command takes this long.</summary>
    private static readonly TimeSpan ObeysWithin = TimeSpan.FromSeconds(20);
    private static readonly TimeSpan ShowsWithin = TimeSpan.FromMinutes(8);

    /// <summary>Warm layers sink to the probe and a thick sheath follows late, longer in some vats than in others, but no longer than this.</summary>
    private static readonly TimeSpan LongestLag = TimeSpan.FromMinutes(30);

    /// <summary>Nearer to the room a slope may be the room's, K.</summary>
    private const double AboveRoomK = 5;

    /// <summary>Long enough for a thermostat to come on again.</summary>
    private static readonly TimeSpan BelowFor = TimeSpan.FromMinutes(18);

    /// <summary>Probes, salts and the height of the place leave boiling known to this, K.</summary>
    private const double NearBoilingK = 2;

    private const double LeftLongAgoK = 1.5;
    private static readonly TimeSpan LookedAway = TimeSpan.FromHours(1);

    /// <summary>A person who switches the heater off by hand each day does so about the same hour.</summary>
    private static readonly TimeSpan SameHour = TimeSpan.FromHours(3);

    private TimeSpan? _saidNoThermostat;
    private TimeSpan? _commandedOff;
    private TimeSpan _showsWithin = ShowsWithin;
    private TimeSpan? _heatedLate;
    private TimeSpan? _belowSince;
    private TimeSpan? _saidSince;
    private bool _wasWarm;
    private TimeSpan _lookedAt;
    private TimeSpan? _stuckSince;
    private readonly HeaterOutput _output = new(vat, tracker);

    /// <summary>What the heater was told; null when that is not known. A command says what should be, never what is.</summary>
    public void TakeCommand(TimeSpan at, bool? on)
    {
        if (on != false)
        {
            LagWasLonger(at);
        }

        _commandedOff = on == false ? _commandedOff ?? at : null;
    }

    /// <summary>Everything that seems wrong now, the most dangerous first.</summary>
    public IEnumerable<Diagnosis> Evaluate(Stamp now, HeatSnapshot look, double? levelPercent, bool? powerFlows)
    {
        if (tracker.Fall.Kind == FallKind.OutOfLiquor)
        {
            _belowSince = null;
            if (_stuckSince is { } stuckSince && !tracker.IsSwitchedOff)
            {
                yield return Diagnosis.Made(DiagnosisKind.HeaterStuckOn, now, stuckSince, "The heater did not switch off where it should, and now the probe seems to hang out of the liquor. Unplug it at the wall.");
            }

            yield return Diagnosis.Made(DiagnosisKind.ProbeOutOfLiquor, now, tracker.Fall.Since,
                new($"The temperature fell by {tracker.Fall.DropK:K} faster than any vat cools: the probe seems to hang in air. Put it back; no forecast until then."));
            yield break;
        }

        if ((Stuck(now, look) ?? Disobeys(now, look, powerFlows)) is { } stuck)
        {
            yield return stuck;
        }
        else if (_output.Evaluate(now, look, levelPercent) is { } output)
        {
            yield return output;
        }

        if (CoolsOut(now, look) is { } cools)
        {
            yield return cools;
        }

        if (tracker.Balance is { OpenSince: { } open, OpenWasTold: false })
        {
            var costs = tracker.Balance.OpenCostsW is { } watts ? $" by about {watts:0} W" : "";
            yield return Diagnosis.Made(DiagnosisKind.LosingHeat, now, open,
                new($"The vat loses more heat than before{costs}, as it does without its lid or wrap. Cover it, and mind its level."));
        }

        if (NoThermostat(now, look) is { } unknown)
        {
            yield return unknown;
        }

        if (tracker.Step is { } step && now.Monotonic - step.Since <= ShownFor)
        {
            yield return Diagnosis.Made(DiagnosisKind.ColdLoad, now, step.Since, Cold(step.DropK, look));
        }
    }

    /// <summary>Said once, while the first heating is watched.</summary>
    private Diagnosis? NoThermostat(Stamp now, HeatSnapshot look)
    {
        if (_saidNoThermostat is null && look.HeaterOn == true && look.Line?.KPerHour > RisingKPerHour && tracker.Thermostat.OffC is null && look.Estimate.EarlierNights == 0)
        {
            _saidNoThermostat = now.Monotonic;
        }

        return _saidNoThermostat is { } since && now.Monotonic - since <= ShownFor && tracker.Thermostat.OffC is null
            ? Diagnosis.Made(DiagnosisKind.NoThermostatKnown, now, since, "No thermostat is known yet: until it has switched off twice in one night, nothing tells a heater that will stop from one that will not, and the time to the limit counts on its staying on.")
            : null;
    }

    private Diagnosis? Stuck(Stamp now, HeatSnapshot look)
    {
        if (tracker.Heater.RisesThoughOffSince is { } since && look.HeaterOn == true && look.RateKPerHour > RisingKPerHour)
        {
            return Diagnosis.Made(DiagnosisKind.HeaterStuckOn, now, since,
                new($"The heater is said to be off, but the liquor rises by {look.RateKPerHour ?? 0:K/h} as with the heater on. Unplug it at the wall."));
        }

        if (tracker.Newest is not { } newest || tracker.Fall.Kind == FallKind.Falling)
        {
            return null;
        }

        var border = tracker.EndsC;
        var rises = look.HeaterOn == true && look.Line is { } line && line.KPerHour > RisingKPerHour + 2 * line.Sigma && Math.Min(line.NewestC, newest.LiquorC) > border;

        // Above its limit a vat that does not cool is heated, also where it rises no more because it boils.
        var stands = _stuckSince is not null && newest.LiquorC > border && (newest.LiquorC >= vat.Temperature.LimitC || rises)
            && !(look.RateKPerHour < -RisingKPerHour);
        if (!rises && !stands)
        {
            _stuckSince = null;
            return null;
        }

        _stuckSince ??= now.Monotonic;
        if (newest.LiquorC > vat.BoilingC - NearBoilingK)
        {
            return Diagnosis.Made(DiagnosisKind.HeaterStuckOn, now, _stuckSince.Value,
                new($"The liquor is at {newest.LiquorC:°C}: it boils or is about to. Unplug the heater at the wall or at the breaker, keep away from steam, air the room."));
        }

        Sentence should = tracker.Thermostat.ExpectedC is { } offC && tracker.StuckAboveC <= border
            ? new($"the thermostat used to switch off at {offC:°C}")
            : new($"the band ends at {vat.Temperature.HighC:°C}");
        return Diagnosis.Made(DiagnosisKind.HeaterStuckOn, now, _stuckSince.Value,
            new($"The liquor is at {newest.LiquorC:°C} and still heated, though {should}: the heater is stuck on or was turned up. Unplug it at the wall."));
    }

    /// <summary>The command is off, but power flows or the liquor is heated: a welded contact.</summary>
    private Diagnosis? Disobeys(Stamp now, HeatSnapshot look, bool? powerFlows)
    {
        if (_commandedOff is not { } since || now.Monotonic - since < ObeysWithin)
        {
            return null;
        }

        // Losses are badly known at times: a vat that only cools more slowly than it should is not heated.
        var heated = now.Monotonic - since >= _showsWithin && tracker.LineAfter(since + ObeysWithin) is { } line
            && line.NewestC > look.Estimate.RoomC + AboveRoomK && line.KPerHour - line.Sigma > look.Estimate.HalfWayKPerHour(line.NewestC) && line.KPerHour > SureDeviations * line.Sigma;
        if (heated || powerFlows == true)
        {
            _heatedLate = powerFlows == true ? null : since;
        }
        else
        {
            LagWasLonger(now.Monotonic);
        }

        return powerFlows == true || heated
            ? Diagnosis.Made(DiagnosisKind.HeaterStuckOn, now, since, new($"The heater was told to be off {DisplayUnits.Duration(now.Monotonic - since)} ago, but {(powerFlows == true ? "it draws power" : "the liquor is still heated")}: its switch sticks. Unplug it at the wall."))
            : null;
    }

    /// <summary>The liquor was taken for heated after a command and nobody did anything about it: it may have been the vat's own lag, which is given more room from now on.</summary>
    private void LagWasLonger(TimeSpan at)
    {
        if (_heatedLate is { } since)
        {
            _showsWithin = TimeMath.Min(TimeMath.Max(2 * _showsWithin, at - since + ObeysWithin), LongestLag);
            _heatedLate = null;
        }
    }

    /// <summary>The liquor was warm, nobody switched the heater off, and it cools out of its band.</summary>
    private Diagnosis? CoolsOut(Stamp now, HeatSnapshot look)
    {
        var readAt = tracker.Newest?.At ?? now.Monotonic;
        _wasWarm &= readAt - _lookedAt < LookedAway;
        _lookedAt = readAt;
        if (tracker.Newest is not { } newest || tracker.IsSwitchedOff || look.HeaterOn == true || look.Line is { Rises: true, KPerHour: > RisingKPerHour })
        {
            _belowSince = null;
            _wasWarm &= !tracker.IsSwitchedOff && !(tracker.Newest?.LiquorC < vat.Temperature.LowC);
            return null;
        }

        // What is a hair's breadth below trembles about the edge for half an hour.
        if (newest.LiquorC >= vat.Temperature.LowC + (_belowSince is null ? 0 : tracker.GrainK))
        {
            (_wasWarm, _belowSince) = (true, null);
            return null;
        }

        if (!_wasWarm || (look.HeaterOn is null && _belowSince is null) || (tracker.Thermostat.OffC is not null && newest.LiquorC > tracker.Thermostat.OnC - HeatTracker.AboveBandK))
        {
            return null;
        }

        if (_belowSince is null && newest.LiquorC < vat.Temperature.LowC - LeftLongAgoK)
        {
            // It left the band while nobody looked.
            _wasWarm = false;
            return null;
        }

        _belowSince ??= now.Monotonic;
        if (now.Monotonic - _belowSince < BelowFor)
        {
            return null;
        }

        // A vat that a person switches off each day cools like this each day: without a thermostat it is said once.
        var isHabit = _saidSince is { } said && said != _belowSince && tracker.Thermostat.OffC is null && IsSameHour(_belowSince.Value - said);
        _saidSince = isHabit ? _saidSince : _belowSince;
        return isHabit ? null : Diagnosis.Made(DiagnosisKind.CoolsOutOfBand, now, _belowSince.Value,
            new($"The liquor was warm and has cooled to {newest.LiquorC:°C}, out of its band, and the heater does not come on. If nobody switched it off, look at plug, breaker and cut-out; if somebody did, enter it."));
    }

    private static bool IsSameHour(TimeSpan apart) => TimeSpan.FromHours(Math.Abs(Math.IEEERemainder(apart.TotalHours, 24))) <= SameHour;

    private Sentence Cold(double dropK, HeatSnapshot look)
    {
        var above = (tracker.Newest?.LiquorC ?? look.Estimate.RoomC) - look.Estimate.RoomC;
        var litres = above > 5 ? look.Estimate.CapacityJPerK * dropK / above / 4180 : (double?)null;
        Sentence size = litres is { } l ? new Sentence($", as much as {l:L} of water at room temperature takes") : "";
        return new($"The liquor fell by {dropK:K} within minutes{size}: something cold went in.");
    }
}
