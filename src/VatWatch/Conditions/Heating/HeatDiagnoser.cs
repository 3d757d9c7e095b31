using VatWatch.Conditions.Heating.Signals;

namespace VatWatch.Conditions.Heating;

/// <summary>
/// Says what seems wrong with a vat's heating. Signatures and times as in the heat-balance reference, "diagnostics"; its thresholds are
/// engineering choices. Not thread safe; one per vat.
/// </summary>
internal sealed class HeatDiagnoser(VatDefinition vat, HeatTracker tracker)
{
    private const double NotHeatingShare = 0.3;
    private const double WeakShare = 0.85;

    /// <summary>Above its full level a vat has this much over its element; below it the element may be dry. Engineering choice.</summary>
    private const double LowLevelPercent = 70;

    /// <summary>Above the band by more than a thermostat's spread.</summary>
    private const double AboveBandK = 0.5;
    private const double RisingKPerHour = 0.3;

    /// <summary>Near the room a lid cannot explain a missing power.</summary>
    private const double LidShowsAboveRoomK = 12;
    private const double GreatestLidShare = 1.8;

    private static readonly TimeSpan NotHeatingAfter = TimeSpan.FromMinutes(10);
    private static readonly TimeSpan UncoveredAfter = TimeSpan.FromMinutes(8);
    private static readonly TimeSpan WeakAfter = TimeSpan.FromMinutes(30);
    private static readonly TimeSpan ShownFor = TimeSpan.FromMinutes(30);

    /// <summary>Longer than the line that the power is read from: a small step in the line has then left it.</summary>
    private static readonly TimeSpan WeakHolds = TimeSpan.FromMinutes(21);

    /// <summary>A relay opens within a second; a slope that lies wholly after the command takes this long.</summary>
    private static readonly TimeSpan ObeysWithin = TimeSpan.FromSeconds(20);
    private static readonly TimeSpan ShowsWithin = TimeSpan.FromMinutes(8);

    /// <summary>Long enough for a thermostat to come on again.</summary>
    private static readonly TimeSpan BelowFor = TimeSpan.FromMinutes(18);

    /// <summary>Probes, salts and the height of the place leave boiling known to this, K.</summary>
    private const double NearBoilingK = 2;

    private const double LeftLongAgoK = 1.5;

    private TimeSpan? _saidNoThermostat;
    private TimeSpan? _commandedOff;
    private TimeSpan? _belowSince;
    private TimeSpan? _saidSince;
    private bool _wasWarm;
    private TimeSpan? _stuckSince;
    private TimeSpan? _weakSince;

    /// <summary>What the heater was told; null when that is not known. A command says what should be, never what is.</summary>
    public void TakeCommand(TimeSpan at, bool? on) => _commandedOff = on == false ? _commandedOff ?? at : null;

    /// <summary>Everything that seems wrong now, the most dangerous first.</summary>
    public IEnumerable<Diagnosis> Evaluate(Stamp now, HeatSnapshot look, double? levelPercent, bool? powerFlows)
    {
        if (tracker.Fall.Kind == FallKind.OutOfLiquor)
        {
            yield return Made(DiagnosisKind.ProbeOutOfLiquor, now, tracker.Fall.Since,
                new($"The temperature fell by {tracker.Fall.DropK:K} faster than any vat cools: the probe seems to hang in air. Put it back; no forecast until then."));
            yield break;
        }

        if ((Stuck(now, look) ?? Disobeys(now, look, powerFlows)) is { } stuck)
        {
            yield return stuck;
        }
        else if (NotHeating(now, look, levelPercent) is { } cold)
        {
            yield return cold;
        }
        else if (Weak(now, look) is { } weak)
        {
            yield return weak;
        }

        if (CoolsOut(now, look) is { } cools)
        {
            yield return cools;
        }

        if (tracker.Balance is { OpenSince: { } open, OpenWasTold: false })
        {
            var costs = tracker.Balance.OpenCostsW is { } watts ? $" by about {watts:0} W" : "";
            yield return Made(DiagnosisKind.LosingHeat, now, open,
                new($"The vat loses more heat than before{costs}, as it does without its lid or wrap. Cover it, and mind its level."));
        }

        if (NoThermostat(now, look) is { } unknown)
        {
            yield return unknown;
        }

        if (tracker.Step is { } step && now.Monotonic - step.Since <= ShownFor)
        {
            yield return Made(DiagnosisKind.ColdLoad, now, step.Since, Cold(step.DropK, look));
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
            ? Made(DiagnosisKind.NoThermostatKnown, now, since, "No thermostat is known yet: until it has switched off twice in one night, nothing tells a heater that will stop from one that will not, and the time to the limit counts on its staying on.")
            : null;
    }

    private Diagnosis? Stuck(Stamp now, HeatSnapshot look)
    {
        if (tracker.Heater.RisesThoughOffSince is { } since && look.HeaterOn == true && look.RateKPerHour > RisingKPerHour)
        {
            return Made(DiagnosisKind.HeaterStuckOn, now, since,
                new($"The heater is said to be off, but the liquor rises by {look.RateKPerHour ?? 0:K/h} as with the heater on. Unplug it at the wall."));
        }

        if (tracker.Newest is not { } newest)
        {
            return null;
        }

        // A thermostat that is known says better than the band where heating should end.
        var border = tracker.StuckAboveC is { } stuckC && stuckC < vat.Temperature.LimitC ? stuckC : vat.Temperature.HighC + AboveBandK + tracker.StepK;
        var rises = look.HeaterOn == true && look.Line is { } line && line.KPerHour > RisingKPerHour + 2 * line.Sigma && line.NewestC > border;

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
            return Made(DiagnosisKind.HeaterStuckOn, now, _stuckSince.Value,
                new($"The liquor is at {newest.LiquorC:°C}: it boils or is about to. Unplug the heater at the wall or at the breaker, keep away from steam, air the room."));
        }

        Sentence should = tracker.Thermostat.ExpectedC is { } offC && tracker.StuckAboveC <= border
            ? new($"the thermostat used to switch off at {offC:°C}")
            : new($"the band ends at {vat.Temperature.HighC:°C}");
        return Made(DiagnosisKind.HeaterStuckOn, now, _stuckSince.Value,
            new($"The liquor is at {newest.LiquorC:°C} and still heated, though {should}: the heater is stuck on or was turned up. Unplug it at the wall."));
    }

    /// <summary>The command is off, but power flows or the liquor is heated: a welded contact.</summary>
    private Diagnosis? Disobeys(Stamp now, HeatSnapshot look, bool? powerFlows)
    {
        if (_commandedOff is not { } since || now.Monotonic - since < ObeysWithin)
        {
            return null;
        }

        var heated = look.HeaterOn == true && now.Monotonic - since >= ShowsWithin && look.RecentSince >= since;
        return powerFlows == true || heated
            ? Made(DiagnosisKind.HeaterStuckOn, now, since, new($"The heater was told to be off {DisplayUnits.Duration(now.Monotonic - since)} ago, but {(powerFlows == true ? "it draws power" : "the liquor is still heated")}: its switch sticks. Unplug it at the wall."))
            : null;
    }

    /// <summary>The liquor was warm, nobody switched the heater off, and it cools out of its band.</summary>
    private Diagnosis? CoolsOut(Stamp now, HeatSnapshot look)
    {
        if (tracker.Newest is not { } newest || tracker.IsSwitchedOff || look.HeaterOn == true)
        {
            _belowSince = null;
            _wasWarm &= !tracker.IsSwitchedOff && !(tracker.Newest?.LiquorC < vat.Temperature.LowC);
            return null;
        }

        if (newest.LiquorC >= vat.Temperature.LowC)
        {
            (_wasWarm, _belowSince) = (true, null);
            return null;
        }

        if (!_wasWarm || look.HeaterOn is null || newest.LiquorC > tracker.Thermostat.OnC - AboveBandK)
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

        // A vat that a person switches off each evening cools like this each night: without a thermostat it is said once.
        _saidSince ??= _belowSince;
        return _saidSince != _belowSince && tracker.Thermostat.OffC is null ? null : Made(DiagnosisKind.CoolsOutOfBand, now, _belowSince.Value,
            new($"The liquor was warm and has cooled to {newest.LiquorC:°C}, out of its band, and the heater does not come on. If nobody switched it off, look at plug, breaker and cut-out; if somebody did, enter it."));
    }

    private Diagnosis? NotHeating(Stamp now, HeatSnapshot look, double? levelPercent)
    {
        if (look.HeaterOn != true || !tracker.Heater.IsTold || look.Line is not { } line || now.Monotonic - tracker.Heater.Since < UncoveredAfter)
        {
            return null;
        }

        var expected = look.Estimate.HeatingKPerHour - 1.645 * Math.Sqrt(look.Estimate.HeatingVariance);
        var gives = line.KPerHour - look.Estimate.Rate(line.NewestC, heaterOn: false).KPerHour;
        if (expected <= 0 || gives + 2 * line.Sigma > NotHeatingShare * expected)
        {
            return null;
        }

        if (levelPercent < LowLevelPercent)
        {
            return Made(DiagnosisKind.ElementUncovered, now, tracker.Heater.Since,
                new($"The heater draws power, the liquor does not warm and stands at {levelPercent.Value:0} %: the element may be dry. Unplug it at the wall now; a dry element glows within a minute."));
        }

        return now.Monotonic - tracker.Heater.Since < NotHeatingAfter ? null : Made(DiagnosisKind.HeaterNotHeating, now, tracker.Heater.Since,
            new($"The heater has been on for {DisplayUnits.Duration(now.Monotonic - tracker.Heater.Since)}, but the liquor changes by only {line.KPerHour:K/h}. Check plug, protective switch and cut-out; do not reach in with the power on."));
    }

    private Diagnosis? Weak(Stamp now, HeatSnapshot look)
    {
        if (look.HeaterOn != true || look.Line is not { } line || tracker.Balance.TrustedHeatingKPerHour is not { } usual)
        {
            _weakSince = null;
            return null;
        }

        var aboveRoom = line.NewestC - look.Estimate.RoomC;
        var (loss, lossSigma) = tracker.Balance.TrustedLoss;
        var gives = line.KPerHour + loss * aboveRoom;
        var unsure = Math.Sqrt(line.Sigma * line.Sigma + lossSigma * lossSigma * aboveRoom * aboveRoom);
        if (gives + unsure > WeakShare * usual || MayBeLid(usual - gives, line.NewestC, look.Estimate.RoomC))
        {
            _weakSince = null;
            return null;
        }

        _weakSince ??= now.Monotonic;
        return now.Monotonic - _weakSince < WeakHolds || now.Monotonic - tracker.RegimeSince < WeakAfter ? null : Made(DiagnosisKind.WeakHeater, now, _weakSince.Value,
            new($"The heater gives about {tracker.Prior.Watts(gives):0} W into the liquor; it used to give {tracker.Prior.Watts(usual):0} W. Look at cord, supply and scale on the element."));
    }

    private bool MayBeLid(double missingKPerHour, double liquorC, double roomC) =>
        liquorC - roomC > LidShowsAboveRoomK && tracker.Prior.Watts(missingKPerHour) < GreatestLidShare * tracker.Prior.OpenLidW(liquorC, roomC);

    private Sentence Cold(double dropK, HeatSnapshot look)
    {
        var above = (tracker.Newest?.LiquorC ?? look.Estimate.RoomC) - look.Estimate.RoomC;
        var litres = above > 5 ? look.Estimate.CapacityJPerK * dropK / above / 4180 : (double?)null;
        Sentence size = litres is { } l ? new Sentence($", as much as {l:L} of water at room temperature takes") : "";
        return new($"The liquor fell by {dropK:K} within minutes{size}: something cold went in.");
    }

    private static Diagnosis Made(DiagnosisKind kind, Stamp now, TimeSpan since, Sentence sentence) => new(kind, sentence) { Since = now.Plus(since - now.Monotonic) };
}
