using VatWatch.Daemon.Plans;
using VatWatch.Plans.Day;
using VatWatch.Plans.Warm;
using VatWatch.Sessions;

namespace VatWatch.Daemon.Web.Plans;

/// <summary>What the page shows of the night.</summary>
public sealed record NightView
{
    public required VatDefinition Vat { get; init; }

    /// <summary>What stands in the form.</summary>
    public required string Ready { get; init; }

    public required double At { get; init; }

    public required IReadOnlyList<string> Faults { get; init; }

    /// <summary>When to switch off a heater that is on; null while it is not.</summary>
    public string? Coasting { get; init; }

    /// <summary>The plan that was asked for, or why there is none.</summary>
    public WarmText? Asked { get; init; }

    public string? Refused { get; init; }

    /// <summary>The plan that is kept, the time that matters now, and what it comes to by now.</summary>
    public KeptWarmPlan? Kept { get; init; }

    public DateTimeOffset? Next { get; init; }

    public WarmText? Due { get; init; }

    public string? DueRefused { get; init; }

    public required IReadOnlyList<NightCheck> Checks { get; init; }

    /// <summary>What was said of the heater's power, and whether that is asked for.</summary>
    public required string Heater { get; init; }

    public required bool AsksHeater { get; init; }

    /// <summary>The heater as it was entered for <see cref="Next"/>; null while it was not.</summary>
    public SwitchedHeater? Switched { get; init; }
}

/// <summary>What the page shows of the day.</summary>
public sealed record DayView
{
    public required VatDefinition Vat { get; init; }

    /// <summary>What stands in the form.</summary>
    public required string Goods { get; init; }

    public required string Start { get; init; }

    /// <summary>What was said of the heater's power, and whether that is asked for.</summary>
    public required string Heater { get; init; }

    public required bool AsksHeater { get; init; }

    public required IReadOnlyList<string> Faults { get; init; }

    /// <summary>The plan that was asked for, or why there is none.</summary>
    public (DayText Text, DayPlan Plan)? Asked { get; init; }

    public string? Refused { get; init; }

    /// <summary>The plan that is kept, and what of it is still to come.</summary>
    public KeptDayPlan? Kept { get; init; }

    public (TimeSpan Shift, IReadOnlyList<PlannedDip> ToCome)? Moved { get; init; }

    /// <summary>Whether only the kept plan is shown, which then keeps itself up to date.</summary>
    public bool IsAlone { get; init; }

    /// <summary>Dips that were entered.</summary>
    public int Done { get; init; }
}
