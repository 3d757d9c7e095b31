namespace VatWatch.Plans.Warm;

/// <summary>
/// A vat that nobody heats, until its heater goes on: it loses heat at a constant share of what it is above a room that goes with the hours. Loss and room are those that go best with all that is
/// known of them: what the vat loses when it is held warm, what rooms are, how it cools now, and how far it has fallen since it was last warm (least squares, each weighed by how far it is in doubt).
/// </summary>
internal sealed class UnheatedVat
{
    /// <summary>How far the loss by the heat balance, as a share, and the room may be from what is taken; set on a second physics, no source.</summary>
    private const double LossShare = 0.5;
    private const double RoomSigmaK = 3.5;
    private const double MeasuredRoomSigmaK = 1.5;

    /// <summary>No vat that is held warm loses less, K/h: what a balance says that shared its error badly between power and losses.</summary>
    private const double LeastHeldKPerHour = 0.25;

    /// <summary>Since it was last warm the lid was off for a while and goods were in it: the loss by night is so much less, and in doubt by a share; in logarithms, set on the same.</summary>
    private const double FallLog = -0.3;
    private const double FallSigmaLog = 0.3;

    /// <summary>What is seen of the cooling counts less the further it is from all else, by Student's distribution of so many degrees of freedom: a hand or a thermometer that settles.</summary>
    private const double StudentDegrees = 4;

    private const double ColdestRoomC = -10;
    private const double LeastAboveK = 0.5;
    private const int Rounds = 10;
    private const double Nudge = 1e-4;
    private const double LongestLogStep = 0.5;
    private const double LongestRoomStepK = 3;

    /// <summary>The room is taken as constant for so long.</summary>
    private static readonly TimeSpan Step = TimeSpan.FromMinutes(30);

    private readonly VatHeat _heat;
    private readonly SeenHeat _seen;
    private readonly WarmWish _wish;
    private readonly TimeZoneInfo _zone;
    private readonly double _heldKPerHour;
    private readonly double _warmC;
    private readonly double _aboveMeanK;
    private readonly double _likelyRoomC;
    private readonly double _lossPerHour;
    private readonly double _roomC;

    public UnheatedVat(VatDefinition vat, VatHeat heat, SeenHeat seen, WarmWish wish, TimeZoneInfo zone)
    {
        (_heat, _seen, _wish, _zone) = (heat, seen, wish, zone);
        _warmC = (vat.Temperature.LowC + vat.Temperature.HighC) / 2;
        _heldKPerHour = Math.Max(LeastHeldKPerHour, heat.LossWPerK * Math.Max(0, _warmC - heat.RoomC) / heat.CapacityJPerK * 3600);
        _aboveMeanK = seen.Room.AboveMeanK(wish.Now, zone);
        _likelyRoomC = heat.At(wish.Now, seen.Room, zone).LikelyRoomC;
        (_lossPerHour, _roomC) = Fit();
    }

    /// <summary>For which it stands there unheated.</summary>
    public WarmWish Wish => _wish;

    /// <summary>Share of what it is above the room that it loses in an hour.</summary>
    public double LossPerHour => _lossPerHour;

    /// <summary>Where the liquor has cooled to at a moment, °C.</summary>
    public double CooledTo(DateTimeOffset at)
    {
        var (now, c) = (_wish.Now, _wish.LiquorC);
        while (now < at)
        {
            var step = TimeMath.Min(Step, at - now);
            var roomC = _roomC - _aboveMeanK + _seen.Room.AboveMeanK(now + step / 2, _zone);
            c = roomC + (c - roomC) * Math.Exp(-_lossPerHour * step.TotalHours);
            now += step;
        }

        return c;
    }

    /// <summary>Loss per hour and room now: Gauss and Newton's steps from what is likely before anything was seen.</summary>
    private (double LossPerHour, double RoomC) Fit()
    {
        var warmestRoomC = _wish.LiquorC - LeastAboveK;
        var roomC = _heat.RoomIsMeasured ? _likelyRoomC : Math.Min(_likelyRoomC, warmestRoomC);
        var logLoss = Math.Log(HeldLoss(roomC));
        for (var round = 0; round < Rounds && (_seen.Cooling is not null || _seen.Fall is not null); round++)
        {
            var (off, byLoss, byRoom) = (Off(logLoss, roomC), Off(logLoss + Nudge, roomC), Off(logLoss, roomC + Nudge));
            var (ll, lr, rr, l, r) = (0.0, 0.0, 0.0, 0.0, 0.0);
            for (var i = 0; i < off.Length; i++)
            {
                var (dl, dr) = ((byLoss[i] - off[i]) / Nudge, (byRoom[i] - off[i]) / Nudge);
                var weight = i == 0 ? 1 / (1 + off[i] * off[i] / StudentDegrees) : 1;
                (ll, lr, rr, l, r) = (ll + weight * dl * dl, lr + weight * dl * dr, rr + weight * dr * dr, l + weight * dl * off[i], r + weight * dr * off[i]);
            }

            var determinant = ll * rr - lr * lr;
            logLoss -= Math.Clamp((rr * l - lr * r) / determinant, -LongestLogStep, LongestLogStep);
            roomC = Math.Clamp(roomC - Math.Clamp((ll * r - lr * l) / determinant, -LongestRoomStepK, LongestRoomStepK), ColdestRoomC, Math.Max(ColdestRoomC, warmestRoomC));
        }

        return (Math.Exp(logLoss), roomC);
    }

    /// <summary>By how many standard deviations a loss and a room are off from each thing that is known.</summary>
    private double[] Off(double logLoss, double roomC)
    {
        var loss = Math.Exp(logLoss);
        return
        [
            _seen.Cooling is { } cooling ? (cooling.KPerHour + loss * (cooling.MiddleC - roomC)) / cooling.SigmaKPerHour : 0,
            (roomC - _likelyRoomC) / (_heat.RoomIsMeasured ? MeasuredRoomSigmaK : RoomSigmaK),
            Math.Log(loss / HeldLoss(roomC)) / LossShare,
            _seen.Fall is { } fall ? (logLoss - Math.Log(FallLoss(fall, roomC)) - FallLog) / FallSigmaLog : 0,
        ];
    }

    /// <summary>Loss per hour that a vat held warm shows, in a room that is so warm now.</summary>
    private double HeldLoss(double roomC) =>
        _heldKPerHour / Math.Max(1, _warmC - (_heat.RoomIsMeasured ? roomC : roomC - _aboveMeanK - RoomByHour.NightShare * _seen.Room.SwingK));

    /// <summary>Loss per hour that a fall shows, in the mean room of a day.</summary>
    private double FallLoss(SeenFall fall, double roomC)
    {
        var meanC = Math.Min(roomC - _aboveMeanK, fall.ToC - 1);
        return Math.Log((fall.FromC - meanC) / (fall.ToC - meanC)) / fall.Hours;
    }
}
