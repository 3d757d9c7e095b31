using VatWatch.Conditions.Heating.Learning;

namespace VatWatch.Conditions.Heating.Heater;

/// <summary>What a night is held against: how fast the liquor changed in earlier nights, how far it came in their first hour, and what a meter showed. Not thread safe.</summary>
internal sealed class EarlierNights(VatDefinition vat)
{
    /// <summary>A heater that comes on after so long begins another night.</summary>
    private static readonly TimeSpan LongOff = TimeSpan.FromHours(3);

    private TimeSpan? _heatedAt;
    private KeptNights? _kept;

    /// <summary>How fast the liquor changed.</summary>
    public UsualRates Rates { get; } = new();

    /// <summary>How far it has come since the heater came on for the night.</summary>
    public FirstRise FirstRise { get; } = new();

    /// <summary>What a meter shows of the heater.</summary>
    public HeaterDraw Draw { get; } = new(vat);

    /// <summary>What nights were like, for keeping; it is put together anew when the heater has come on or gone off.</summary>
    public KeptNights Kept
    {
        get
        {
            if (_kept is null)
            {
                var (warming, cooling, firstHour) = Rates.Kept();
                _kept = new(warming, cooling, firstHour, FirstRise.Kept, Draw.Kept);
            }

            return _kept;
        }
    }

    /// <summary>Takes up what an earlier run kept.</summary>
    public void Restore(KeptNights kept)
    {
        Rates.Restore(kept);
        FirstRise.Restore(kept.FirstRiseK);
        Draw.Restore(kept.DrawnShare);
    }

    /// <summary>The heater came on or went off: there may be more to keep.</summary>
    public void HeaterTurned() => _kept = null;

    /// <summary>The heater comes on, or goes on.</summary>
    /// <param name="toldAt">When it came on, as a person or a probe says; null where only the slope shows it.</param>
    /// <param name="liquorC">The liquor then, °C; null where it has yet to be seen.</param>
    /// <returns>Whether another night begins with it.</returns>
    public bool Heats(TimeSpan at, TimeSpan? toldAt, double? liquorC)
    {
        var begins = !(at - _heatedAt < LongOff);
        _heatedAt = at;
        if (begins)
        {
            Rates.BeginWarmUp();
            Draw.BeginWarmUp();
            FirstRise.Begin(toldAt, liquorC);
        }

        return begins;
    }
}
