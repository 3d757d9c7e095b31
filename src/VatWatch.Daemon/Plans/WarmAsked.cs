using VatWatch.Daemon.Dosing;
using VatWatch.Plans.Warm;
using VatWatch.Vats.Configuration;

namespace VatWatch.Daemon.Plans;

/// <summary>The wish for a warm vat as a person writes it, on a command line or in a form; null where nothing was said.</summary>
internal sealed record WarmAsked(string? Ready, string? At, string? From, string? Heater, string? Room)
{
    /// <summary>Reads the wish and plans for it; what cannot be read is filed, and then there is neither plan nor refusal.</summary>
    /// <param name="known">What the store or the watch tells of it.</param>
    /// <param name="figures">Takes the faults.</param>
    /// <param name="name">What a figure is called where the person wrote it.</param>
    /// <param name="now">UTC.</param>
    public WarmReply Answer(VatDefinition vat, StoredVat known, DoseFigures figures, Func<string, string> name, DateTimeOffset now, TimeZoneInfo zone, DisplayUnits units)
    {
        var ready = PlanClock.Time(Ready);
        var targetC = figures.OptionalWithin(name("at"), At, QuantityKind.Temperature, 20, 100) ?? UsualTarget(vat);
        var fromC = figures.OptionalWithin(name("from"), From, QuantityKind.Temperature, 0, 100);
        var watts = figures.OptionalWithin(name("heater"), Heater, QuantityKind.Power, 10, 100_000);
        var nightRoomC = figures.OptionalWithin(name("room"), Room, QuantityKind.Temperature, -20, 50);
        if (ready is null)
        {
            figures.Fault(name("ready"), Ready ?? "", "a time of day such as 09:00");
        }

        if (figures.Faults.Count > 0)
        {
            return new(null, null, null);
        }

        var heat = VatHeat.Of(vat, known.Learned, nightRoomC ?? known.RoomC);
        heat = watts is { } told ? heat.WithHeater(told) : heat;
        if ((fromC ?? known.LiquorC) is not { } liquorC)
        {
            return new(heat, null, $"How warm {vat.Name} is now is not known: {known.WhyNoLiquor}. See to its probe, or say the temperature of the liquor.");
        }

        // A room that is told is that of the night.
        var seen = nightRoomC is null ? known.Seen : known.Seen with { Room = new(0) };
        var (plan, refused) = new WarmPlanner(vat, heat, units, zone, seen).Plan(new(WallTime.Next(ready!.Value, now, zone), targetC, now, liquorC));
        return new(heat, plan, refused);
    }

    /// <summary>The middle of the band, where nothing else is wished for, °C.</summary>
    public static double UsualTarget(VatDefinition vat) => (vat.Temperature.LowC + vat.Temperature.HighC) / 2;
}

/// <summary>What became of a wish.</summary>
/// <param name="Heat">What the plan rests on.</param>
/// <param name="Plan">The plan; null when there is none.</param>
/// <param name="Refused">Why there is none, as a sentence; null with a plan, and when the wish could not be read.</param>
internal sealed record WarmReply(VatHeat? Heat, WarmPlan? Plan, string? Refused);
